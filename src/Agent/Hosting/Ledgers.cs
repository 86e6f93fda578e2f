using CaptureAgent.Agent.Feeding.Batches;
using CaptureAgent.Agent.Feeding.Probes;
using CaptureAgent.Agent.Round;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Hosting;

/// <summary>Reads from the store what the core must know.</summary>
internal static class Ledgers
{
    /// <summary>Far longer than any emptying gap, and than a nursery day.</summary>
    private static readonly TimeSpan FeedsKept = TimeSpan.FromDays(7);

    /// <summary>Longer than a nursery day.</summary>
    private static readonly TimeSpan BatchesKept = TimeSpan.FromDays(2);

    /// <summary>Longer than any chore may wait.</summary>
    private static readonly TimeSpan ChoresKept = TimeSpan.FromDays(200);

    /// <param name="now">Live: the present. In a replay: the trace's first moment.</param>
    public static Ledger Read(CaptureStore store, DateTimeOffset now)
    {
        var since = now - FeedsKept;
        var feeds = store.Feeds(since);
        var ledger = new Ledger(store.Chicks(), store.Weighings(), feeds, store.Observations())
        {
            ReadAt = now,
            Batches = store.Batches(now - BatchesKept),
            ProbeChecks = store.ProbeChecks(),
            ProbeLags = store.ProbeLags(LagMemory.Kept),
            Motions = new MotionMemory(store.Motions(DateOnly.FromDateTime(now.UtcDateTime).AddDays(-MotionMemory.DaysKept))),
        };
        var fed = feeds.ToDictionary(feed => feed.Id, feed => feed.Chick);
        foreach (var intake in store.Intakes(since))
        {
            if (fed.TryGetValue(intake.Feed, out var chick))
                ledger.SetIntake(chick, intake.Feed, intake.Milligrams / 1000m);
        }

        foreach (var mark in store.CropMarks(since))
            ledger.Add(new Note(mark.Id, Notes.Crop, mark.Chick, "", mark.Day, mark.At));
        foreach (var chore in store.Chores(now - ChoresKept))
            ledger.Add(new Note(chore.Id, Notes.Chore, null, chore.Chore, null, chore.At));
        foreach (var begun in ledger.Batches.GroupBy(row => (row.Day, row.Number)).Select(rows => rows.First()).Where(BatchBook.IsByCard))
            ledger.Add(new Note(begun.Id, Notes.Batch, null, "", begun.Day, begun.At));
        return ledger;
    }
}
