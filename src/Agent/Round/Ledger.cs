using CaptureAgent.Store;

namespace CaptureAgent.Agent.Round;

/// <summary>What the core knows of the nursery: the register, the weights that stand and the feeds; from the store at start, then kept up by the core itself.</summary>
internal sealed class Ledger
{
    private readonly Dictionary<string, Chick> chicks;

    public Ledger(IEnumerable<Chick> chicks, IEnumerable<WeighingRow> weighings, IEnumerable<FeedRow> feeds)
    {
        this.chicks = chicks.ToDictionary(chick => chick.Code, StringComparer.Ordinal);
        _ = weighings;
        _ = feeds;
    }

    public Chick? Find(string code) => chicks.GetValueOrDefault(code);
}
