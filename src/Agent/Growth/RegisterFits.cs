using System.Threading.Channels;
using CaptureAgent.Agent.Growth.Fitting;
using CaptureAgent.Agent.Growth.Models;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Growth;

/// <summary>The best curve of one chick.</summary>
/// <param name="Fit">The fit that is told and describes the weights best; where none is, the logistic one with the reason why not; null where the weights are too few.</param>
internal sealed record ChickFit(Chick Chick, int Weights, GrowthFit? Fit);

/// <summary>Fits every chick of a store, in the order of codes, on all cores; what is held at a time does not grow with the store.</summary>
internal static class RegisterFits
{
    private const int BatchSize = 512;
    private const int BatchesAhead = 4;

    /// <param name="visit">Called for one chick after the other.</param>
    public static void Each(CaptureStore store, Action<ChickFit> visit)
    {
        var register = store.Chicks().ToDictionary(chick => chick.Code, StringComparer.Ordinal);
        var batches = Channel.CreateBounded<List<GrowthRecord>>(new BoundedChannelOptions(BatchesAhead) { SingleReader = true, SingleWriter = true });
        var fitting = Task.Run(async () =>
        {
            await foreach (var batch in batches.Reader.ReadAllAsync())
                Fit(batch, register, visit);
        });
        try
        {
            Read(store, batch => Hand(batches.Writer, batch, fitting));
            batches.Writer.Complete();
        }
        catch (Exception failure)
        {
            batches.Writer.TryComplete(failure);
            throw;
        }

        fitting.GetAwaiter().GetResult();
    }

    private static void Read(CaptureStore store, Action<List<GrowthRecord>> hand)
    {
        List<GrowthRecord> batch = [];
        store.EachGrowthRecord(record =>
        {
            batch.Add(record);
            if (batch.Count < BatchSize)
                return;
            hand(batch);
            batch = [];
        });
        if (batch.Count > 0)
            hand(batch);
    }

    // Reading waits for the fitting where that is behind; a fault there ends the reading.
    private static void Hand(ChannelWriter<List<GrowthRecord>> writer, List<GrowthRecord> batch, Task fitting)
    {
        while (!writer.TryWrite(batch))
        {
            var room = writer.WaitToWriteAsync().AsTask();
            if (Task.WaitAny(room, fitting) == 1)
                fitting.GetAwaiter().GetResult();
        }
    }

    private static void Fit(List<GrowthRecord> batch, Dictionary<string, Chick> register, Action<ChickFit> visit)
    {
        var fits = new ChickFit[batch.Count];
        Parallel.For(0, batch.Count, () => new Fitter(), (i, _, fitter) =>
        {
            fits[i] = Fit(fitter, register.GetValueOrDefault(batch[i].Chick) ?? new Chick(batch[i].Chick, null, null), batch[i]);
            return fitter;
        }, _ => { });
        foreach (var fit in fits)
            visit(fit);
    }

    private static ChickFit Fit(Fitter fitter, Chick chick, GrowthRecord record)
    {
        var origin = (chick.Hatched ?? record.Days[0]).DayNumber;
        var (ages, grams) = (new double[record.Days.Count], new double[record.Days.Count]);
        for (var i = 0; i < ages.Length; i++)
            (ages[i], grams[i]) = (record.Days[i].DayNumber - origin, record.Milligrams[i] / 1000.0);
        GrowthFit? best = null, first = null;
        foreach (var model in GrowthModel.All)
        {
            var fit = fitter.FitToPeak(model, ages, grams);
            first ??= fit;
            if (fit is { IsTold: true } && (best is null || fit.Aicc < best.Aicc))
                best = fit;
        }

        return new ChickFit(chick, record.Days.Count, best ?? first);
    }
}
