using CaptureAgent.Agent.Recording;
using CaptureAgent.Store;

namespace CaptureAgent.Benchmarks.Rounds;

/// <summary>The store that is behind it, and what went into it.</summary>
internal sealed class CountingStore(IDecisionStore store) : IDecisionStore
{
    public int Accepted { get; private set; }

    public int Rejected { get; private set; }

    /// <summary>Uncompressed bytes of evidence.</summary>
    public long EvidenceBytes { get; private set; }

    public void Add(WeighingRow weighing, Evidence? evidence)
    {
        store.Add(weighing, evidence);
        Accepted += weighing.Verdict == Verdict.Accepted ? 1 : 0;
        Rejected += weighing.Verdict == Verdict.Rejected ? 1 : 0;
        EvidenceBytes += evidence?.Samples.Length ?? 0;
    }

    public void Add(FeedRow feed) => store.Add(feed);

    public void Add(UndoRow undo) => store.Add(undo);

    public void Add(IntakeRow intake) => store.Add(intake);

    public void Add(CropMarkRow mark) => store.Add(mark);

    public void Add(ChoreRow chore) => store.Add(chore);

    public void Add(ScaleCheckRow check) => store.Add(check);

    public void Add(TareAfterRow tare) => store.Add(tare);
    public void Add(ObservationRow observation) => store.Add(observation);
    public void Add(BatchRow batch) => store.Add(batch);

    public void Add(ProbeCheckRow check) => store.Add(check);

    public void Add(ProbeLagRow lag) => store.Add(lag);
}
