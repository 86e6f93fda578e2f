using System.Diagnostics;
using CaptureAgent.Agent.Links;
using CaptureAgent.Benchmarks.Reporting;
using CaptureAgent.Simulators.Bluetooth;
using CaptureAgent.Simulators.Bluetooth.StandIn;

namespace CaptureAgent.Benchmarks.Radio;

/// <summary>How soon a device that was out of range for ten seconds is read again.</summary>
internal static class Outages
{
    public const int IntervalMilliseconds = 100;

    private const int Times = 11;

    private static readonly TimeSpan Away = TimeSpan.FromSeconds(10);

    public static async Task<(Spread Returned, Spread Known)> MeasureAsync() => (await ReturnedAsync(), await KnownAsync());

    private static async Task<Spread> ReturnedAsync()
    {
        await using var bench = await RadioBench.StartAsync(LinkTimings.Default);
        using var over = new CancellationTokenSource();
        var sending = SendAsync(bench, over.Token);
        await ReadingAsync(bench);
        var milliseconds = new List<double>();
        for (var i = 0; i < Times; i++)
        {
            // Long enough connected that the outage starts from a good session.
            await Task.Delay(TimeSpan.FromSeconds(3));
            bench.Bluez.Leave(bench.Device);
            if (i % 2 == 1)
                bench.Bluez.Forget(bench.Device);
            await Task.Delay(Away);
            while (bench.Records.TryRead(out _))
            {
            }

            var started = Stopwatch.GetTimestamp();
            BluezStandIn.Return(bench.Device);
            await ReadingAsync(bench);
            milliseconds.Add(Stopwatch.GetElapsedTime(started).TotalMilliseconds);
        }

        await over.CancelAsync();
        await sending;
        return new Spread(milliseconds);
    }

    private static async Task<Spread> KnownAsync()
    {
        await using var bench = await RadioBench.StartAsync(null);
        using var client = await BareClient.ConnectAsync(bench);
        using var over = new CancellationTokenSource();
        var sending = SendAsync(bench, over.Token);
        var milliseconds = new List<double>();
        for (var i = 0; i < Times; i++)
        {
            bench.Bluez.Leave(bench.Device);
            await Task.Delay(TimeSpan.FromSeconds(0.5));
            while (client.Values.TryRead(out _))
            {
            }

            var started = Stopwatch.GetTimestamp();
            BluezStandIn.Return(bench.Device);
            await client.SubscribeAsync();
            await client.Values.ReadAsync();
            milliseconds.Add(Stopwatch.GetElapsedTime(started).TotalMilliseconds);
        }

        await over.CancelAsync();
        await sending;
        return new Spread(milliseconds);
    }

    private static async Task ReadingAsync(RadioBench bench)
    {
        while ((await bench.Records.ReadAsync()).Link is not null)
        {
        }
    }

    private static async Task SendAsync(RadioBench bench, CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            bench.Send(PlayedNursery.Line(0));
            await Task.Delay(IntervalMilliseconds, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }
}
