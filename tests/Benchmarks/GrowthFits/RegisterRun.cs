using System.Diagnostics;
using CaptureAgent.Agent.Growth;
using CaptureAgent.Store;

namespace CaptureAgent.Benchmarks.GrowthFits;

/// <summary>One pass over a store: every chick read, fitted with all four models, the best kept.</summary>
/// <param name="Seconds">From opening the store to the last chick's curve.</param>
/// <param name="LiveMegabytes">What the program holds, after a full collection, when a tenth, two tenths... of the chicks were done.</param>
/// <param name="ResidentMegabytes">Resident memory of the process at the same moments.</param>
internal sealed record RegisterRun(int Chicks, long Weights, int Identifiable, double Seconds, double SecondsReading, double ProcessorSeconds, IReadOnlyList<double> LiveMegabytes, IReadOnlyList<double> ResidentMegabytes)
{
    public static RegisterRun Measure(string path, int chicks)
    {
        var reading = Stopwatch.GetTimestamp();
        using (var store = CaptureStore.Open(path, TimeProvider.System))
            store.EachGrowthRecord(_ => { });
        var secondsReading = Stopwatch.GetElapsedTime(reading).TotalSeconds;

        using var process = Process.GetCurrentProcess();
        var processor = process.TotalProcessorTime;
        var start = Stopwatch.GetTimestamp();
        var (done, weights, identifiable) = (0, 0L, 0);
        List<double> live = [], resident = [];
        using (var store = CaptureStore.Open(path, TimeProvider.System))
        {
            RegisterFits.Each(store, fit =>
            {
                weights += fit.Weights;
                identifiable += fit.Fit is { IsTold: true } ? 1 : 0;
                if (++done % Math.Max(1, chicks / 10) != 0)
                    return;
                live.Add(GC.GetTotalMemory(forceFullCollection: true) / 1e6);
                resident.Add(Environment.WorkingSet / 1e6);
            });
        }

        var seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        process.Refresh();
        return new RegisterRun(done, weights, identifiable, seconds, secondsReading, (process.TotalProcessorTime - processor).TotalSeconds, live, resident);
    }
}
