using CaptureAgent.Benchmarks.Driving;
using CaptureAgent.Benchmarks.Reporting;
using Microsoft.Playwright;

namespace CaptureAgent.Benchmarks.Pages;

/// <summary>When an accepted weight is painted on the view "now", beside when a script learns it that asks once a second.</summary>
internal static class SeenWeights
{
    public const int Stations = 3, ChicksEach = 20;

    /// <summary>A task of its own after the frame's callbacks runs when the frame has been painted.</summary>
    private const string Watching = """
        () => {
          window.painted = {}; window.asked = {};
          const stamp = () => performance.timeOrigin + performance.now();
          const view = document.querySelector('.now');
          const look = () => {
            const code = view.querySelector('.code').textContent;
            if (view.dataset.step !== 'accepted' || code in window.painted) return;
            window.painted[code] = 0;
            requestAnimationFrame(() => { const after = new MessageChannel(); after.port1.onmessage = () => { window.painted[code] = stamp(); }; after.port2.postMessage(0); });
          };
          new MutationObserver(look).observe(view, { attributes: true, childList: true, subtree: true, characterData: true });
          setInterval(async () => {
            const { pan } = await (await fetch('/api/v1/now')).json();
            if (pan.step === 'accepted' && !(pan.chick in window.asked)) window.asked[pan.chick] = stamp();
          }, 1000);
        }
        """;

    /// <param name="FromAt">From the moment that the event carries, milliseconds: decision and commit are in it.</param>
    /// <param name="FromTold">From the reading of the event on standard output, where it stands right after its commit.</param>
    /// <param name="Asked">From the event's moment to a script that asks once a second.</param>
    /// <param name="Commits">From the event's moment to its reading on standard output.</param>
    internal sealed record Measured(Spread FromAt, Spread FromTold, Spread Asked, Spread Commits, int Missed);

    public static async Task<Measured> MeasureAsync(Browser browser)
    {
        List<TimedStation> stations = [];
        List<IPage> pages = [];
        try
        {
            for (var i = 0; i < Stations; i++)
            {
                var address = Browser.FreeAddress();
                stations.Add(new TimedStation(ChicksEach, (ulong)(300 + i), null, () => { }, address));
                var page = await browser.NewPageAsync(1280, 800);
                await page.GotoAsync(address, new() { WaitUntil = WaitUntilState.DOMContentLoaded });
                await page.WaitForSelectorAsync("[data-step]");
                await page.EvaluateAsync(Watching);
                pages.Add(page);
            }

            await Task.Run(() => TimedStation.Drive(stations));
            await Task.Delay(TimeSpan.FromSeconds(2));
            List<double> fromAt = [], fromTold = [], asked = [], commits = [];
            var missed = 0;
            for (var i = 0; i < Stations; i++)
            {
                var painted = await pages[i].EvaluateAsync<Dictionary<string, double>>("window.painted");
                var polled = await pages[i].EvaluateAsync<Dictionary<string, double>>("window.asked");
                foreach (var told in stations[i].Accepted)
                {
                    commits.Add((told.Read - told.At).TotalMilliseconds);
                    if (painted.TryGetValue(told.Chick, out var seen) && seen > 0)
                    {
                        fromAt.Add(seen - Unix(told.At));
                        fromTold.Add(seen - Unix(told.Read));
                    }
                    else
                    {
                        missed++;
                    }

                    if (polled.TryGetValue(told.Chick, out var learnt))
                        asked.Add(learnt - Unix(told.At));
                }
            }

            return new(new(fromAt), new(fromTold), new(asked), new(commits), missed);
        }
        finally
        {
            stations.ForEach(station => station.Dispose());
        }
    }

    private static double Unix(DateTimeOffset at) => (at - DateTimeOffset.UnixEpoch).TotalMilliseconds;
}
