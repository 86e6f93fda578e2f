using CaptureAgent.Store;

namespace CaptureAgent.Agent.Round;

/// <summary>One weight of the growth record.</summary>
/// <param name="At">Null for an imported weight without a time.</param>
internal readonly record struct Weight(Guid Id, DateOnly Day, DateTimeOffset? At, decimal Grams, decimal? UncertaintyGrams);

/// <summary>One feed given.</summary>
internal readonly record struct Feed(Guid Id, DateOnly Day, DateTimeOffset At);

/// <summary>What the core knows of the nursery: the register, the weights that stand and the feeds. From the store at start, then kept up by the core itself.</summary>
internal sealed class Ledger
{
    private readonly Dictionary<string, Chick> chicks;
    private readonly Dictionary<string, List<Weight>> weights = new(StringComparer.Ordinal);
    private readonly Dictionary<Guid, Weight> gaveWay = [];
    private readonly Dictionary<string, List<Feed>> feeds = new(StringComparer.Ordinal);

    public Ledger(IEnumerable<Chick> chicks, IEnumerable<WeighingRow> weighings, IEnumerable<FeedRow> feeds)
    {
        this.chicks = chicks.ToDictionary(chick => chick.Code, StringComparer.Ordinal);
        foreach (var row in weighings)
        {
            if (row is { Chick: { } code, Verdict: Verdict.Accepted, Milligrams: { } milligrams })
                Add(code, new Weight(row.Id, row.Day, row.At, milligrams / 1000m, row.UncertaintyMilligrams / 1000m));
        }

        foreach (var row in feeds)
            Add(row.Chick, new Feed(row.Id, row.Day, row.At));
    }

    /// <summary>The states of the batches of today and yesterday, oldest first.</summary>
    public IReadOnlyList<BatchRow> Batches { get; init; } = [];

    /// <summary>The present, or in a replay the trace's first moment, when this was read.</summary>
    public DateTimeOffset ReadAt { get; init; }

    /// <summary>Every check of every probe, oldest first.</summary>
    public IReadOnlyList<ProbeCheckRow> ProbeChecks { get; init; } = [];

    public IEnumerable<Chick> Chicks => chicks.Values;

    public Chick? Find(string code) => chicks.GetValueOrDefault(code);

    /// <summary>The growth record of a chick, one weight a day, oldest first.</summary>
    public IReadOnlyList<Weight> WeightsOf(string code) => weights.TryGetValue(code, out var known) ? known : [];

    public Weight? MorningWeight(string code, DateOnly day)
    {
        if (weights.TryGetValue(code, out var known))
        {
            for (var i = known.Count - 1; i >= 0 && known[i].Day >= day; i--)
            {
                if (known[i].Day == day)
                    return known[i];
            }
        }

        return null;
    }

    public Feed? LastFeed(string code) => feeds.TryGetValue(code, out var known) && known.Count > 0 ? known[^1] : null;

    /// <summary>The weight takes its place by day; one that stands for the same day gives way to it.</summary>
    public void Add(string code, Weight weight)
    {
        if (!weights.TryGetValue(code, out var known))
            weights[code] = known = [];
        if (known.FindIndex(other => other.Day == weight.Day) is >= 0 and var at)
        {
            gaveWay[weight.Id] = known[at];
            known.RemoveAt(at);
        }

        var i = known.Count;
        while (i > 0 && known[i - 1].Day > weight.Day)
            i--;
        known.Insert(i, weight);
    }

    public void Add(string code, Feed feed)
    {
        if (!feeds.TryGetValue(code, out var known))
            feeds[code] = known = [];
        var i = known.Count;
        while (i > 0 && known[i - 1].At > feed.At)
            i--;
        known.Insert(i, feed);
    }

    /// <summary>The newest weighing or feed of the day that has a moment, whatever the chick; null if there is none.</summary>
    public (string Code, Guid Id, bool IsFeed)? Newest(DateOnly day)
    {
        (string, Guid, bool)? newest = null;
        var at = DateTimeOffset.MinValue;
        foreach (var (code, known) in weights)
        {
            if (known.Count > 0 && known[^1] is { At: { } moment } weight && weight.Day == day && moment >= at)
                (newest, at) = ((code, weight.Id, false), moment);
        }

        foreach (var (code, known) in feeds)
        {
            if (known.Count > 0 && known[^1].Day == day && known[^1].At >= at)
                (newest, at) = ((code, known[^1].Id, true), known[^1].At);
        }

        return newest;
    }

    /// <summary>Takes a weighing or a feed back. A row taken back replaces nothing: the weight that gave way to it stands again.</summary>
    public void Remove(string code, Guid id)
    {
        if (weights.TryGetValue(code, out var known) && known.RemoveAll(weight => weight.Id == id) > 0 && gaveWay.Remove(id, out var before))
            Add(code, before);
        if (feeds.TryGetValue(code, out var given))
            given.RemoveAll(feed => feed.Id == id);
    }
}
