using System.Diagnostics;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Round;
using CaptureAgent.Benchmarks.Reporting;
using CaptureAgent.Simulators.Bluetooth;

namespace CaptureAgent.Benchmarks.Radio;

/// <summary>How long a value takes from the bus to the core.</summary>
internal static class Delay
{
    private const int Values = 2000, Discarded = 100;

    // About as often as ten scales at 10 Hz.
    private static readonly TimeSpan Between = TimeSpan.FromMilliseconds(10);

    public static async Task<(Spread Observed, Spread Bare)> MeasureAsync() => (await ObservedAsync(), await BareAsync());

    private static async Task<Spread> ObservedAsync()
    {
        await using var bench = await RadioBench.StartAsync(LinkTimings.Default);
        var core = new StationCore(new StationOptions { Devices = [RadioBench.Scale] }, new Ledger([], [], []));
        var events = new List<StationEvent>();
        var delays = new List<double>();
        await bench.SubscribedAsync();
        for (var i = 0; i < Values + Discarded; i++)
        {
            await Task.Delay(Between);
            var sent = Stopwatch.GetTimestamp();
            bench.Send(PlayedNursery.Line(0));
            while (true)
            {
                var record = await bench.Records.ReadAsync();
                core.Accept(record, events);
                events.Clear();
                if (record.Link is null)
                    break;
            }

            if (i >= Discarded)
                delays.Add(Stopwatch.GetElapsedTime(sent).TotalMilliseconds);
        }

        return new Spread(delays);
    }

    private static async Task<Spread> BareAsync()
    {
        await using var bench = await RadioBench.StartAsync(null);
        using var client = await BareClient.ConnectAsync(bench);
        var delays = new List<double>();
        for (var i = 0; i < Values + Discarded; i++)
        {
            await Task.Delay(Between);
            var sent = Stopwatch.GetTimestamp();
            bench.Send(PlayedNursery.Line(0));
            await client.Values.ReadAsync();
            if (i >= Discarded)
                delays.Add(Stopwatch.GetElapsedTime(sent).TotalMilliseconds);
        }

        return new Spread(delays);
    }
}
