using CaptureAgent.Store;

namespace CaptureAgent.Agent.Recording;

/// <summary>Where decisions become durable: <see cref="CaptureStore"/>, or a test's stand-in that can fail.</summary>
/// <remarks>
/// Each call returns only when the row is on disk. A <see cref="StoreException"/> may be tried again, with the same id;
/// any other exception means that this row can never be stored.
/// </remarks>
internal interface IDecisionStore
{
    void Add(WeighingRow weighing, Evidence? evidence);

    void Add(FeedRow feed);

    void Add(UndoRow undo);

    void Add(IntakeRow intake);

    void Add(CropMarkRow mark);

    void Add(ChoreRow chore);

    void Add(ScaleCheckRow check);

    void Add(TareAfterRow tare);

    void Add(ObservationRow observation);

    void Add(BatchRow batch);

    void Add(ProbeCheckRow check);

    void Add(ProbeLagRow lag);
}

/// <summary>The real store.</summary>
internal sealed class DecisionStore(CaptureStore store) : IDecisionStore
{
    public void Add(WeighingRow weighing, Evidence? evidence) => store.Add(weighing, evidence);

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
