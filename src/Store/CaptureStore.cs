namespace CaptureAgent.Store;

/// <summary>The durable record. One writer; every write is one transaction, synced before the call returns.</summary>
/// <remarks>Stub of the public face: filled in by the store's own commit. Not thread-safe: one owner.</remarks>
public sealed class CaptureStore : IDisposable
{
    /// <summary>Opens (and creates or migrates) the file; <c>":memory:"</c> keeps all in memory.</summary>
    /// <exception cref="StoreException">Cannot be opened, is damaged, or was written by a newer version.</exception>
    public static CaptureStore Open(string path, TimeProvider time) => throw new NotImplementedException();

    /// <summary>Changes whenever another process has written to the file.</summary>
    public long DataVersion() => throw new NotImplementedException();

    /// <summary>One decision, one transaction. The same id again changes nothing (a try after a failed commit).</summary>
    public void Add(WeighingRow weighing, Evidence? evidence) => throw new NotImplementedException();

    public void Add(FeedRow feed) => throw new NotImplementedException();

    public void Add(UndoRow undo) => throw new NotImplementedException();

    public IReadOnlyList<Chick> Chicks() => throw new NotImplementedException();

    /// <summary>Rows that stand: neither replaced nor taken back; in the order of day, time and arrival.</summary>
    public IReadOnlyList<WeighingRow> Weighings(string? chick = null, DateOnly? from = null, DateOnly? to = null) => throw new NotImplementedException();

    /// <summary>Feeds that stand, oldest first.</summary>
    public IReadOnlyList<FeedRow> Feeds(DateTimeOffset since) => throw new NotImplementedException();

    public Evidence? EvidenceOf(Guid weighing) => throw new NotImplementedException();

    public void Dispose() => throw new NotImplementedException();
}
