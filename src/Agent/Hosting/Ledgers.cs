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

    /// <param name="now">Live: the present. In a replay: the trace's first moment.</param>
    public static Ledger Read(CaptureStore store, DateTimeOffset now) => new(store.Chicks(), store.Weighings(), store.Feeds(now - FeedsKept))
    {
        ReadAt = now,
        Batches = store.Batches(now - BatchesKept),
        ProbeChecks = store.ProbeChecks(),
    };
}
