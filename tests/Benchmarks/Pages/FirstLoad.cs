using CaptureAgent.Benchmarks.Driving;
using CaptureAgent.Benchmarks.Reporting;
using Microsoft.Playwright;

namespace CaptureAgent.Benchmarks.Pages;

/// <summary>The first load of the page with an empty cache, on a phone as slow as web developers take one for: 4G at its slower, a processor of a quarter of this one.</summary>
internal static class FirstLoad
{
    public const int Loads = 11, CpuSlower = 4;

    /// <summary>150 ms round trip, 1.6 Mbit/s down, 0.75 Mbit/s up: the usual "slow 4G" of web measurements (from memory).</summary>
    public const int LatencyMilliseconds = 150, BytesDown = 1_600_000 / 8, BytesUp = 750_000 / 8;

    /// <param name="Bytes">As they came over the wire, headers included; the event stream, which never ends, is not in it.</param>
    internal sealed record Measured(Spread Paint, Spread Shown, int Bytes, int Requests);

    /// <param name="isSlow">False: the same without throttling, to compare with.</param>
    public static async Task<Measured> MeasureAsync(Browser browser, bool isSlow)
    {
        var address = Browser.FreeAddress();
        using var station = new TimedStation(1, 400, null, () => { }, address);
        List<double> paints = [], shown = [];
        var (bytes, requests) = (0, 0);
        for (var i = 0; i < Loads; i++)
        {
            var page = await browser.NewPageAsync(412, 860);
            var session = await page.Context.NewCDPSessionAsync(page);
            (bytes, requests) = (0, 0);
            session.Event("Network.loadingFinished").OnEvent += (_, finished) =>
            {
                Interlocked.Add(ref bytes, (int)finished!.Value.GetProperty("encodedDataLength").GetDouble());
                Interlocked.Increment(ref requests);
            };
            await session.SendAsync("Network.enable");
            if (isSlow)
            {
                await session.SendAsync("Network.emulateNetworkConditions", new()
                {
                    ["offline"] = false,
                    ["latency"] = LatencyMilliseconds,
                    ["downloadThroughput"] = BytesDown,
                    ["uploadThroughput"] = BytesUp,
                });
                await session.SendAsync("Emulation.setCPUThrottlingRate", new() { ["rate"] = CpuSlower });
            }

            await page.GotoAsync(address, new() { WaitUntil = WaitUntilState.DOMContentLoaded });
            await page.WaitForSelectorAsync("[data-step]");
            paints.Add(await page.EvaluateAsync<double>("performance.getEntriesByName('first-contentful-paint')[0].startTime"));
            shown.Add(await page.EvaluateAsync<double>("performance.now()"));
            await page.Context.CloseAsync();
        }

        return new(new(paints), new(shown), bytes, requests);
    }
}
