using CaptureAgent.Agent.Thriving;
using CaptureAgent.Protocol.Codes;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Round;

/// <summary>One weight of the growth record.</summary>
/// <param name="At">Null for an imported weight without a time.</param>
/// <param name="Decimals">Of the grams as an imported file wrote them; null for a captured weight.</param>
internal readonly record struct Weight(Guid Id, DateOnly Day, DateTimeOffset? At, decimal Grams, decimal? UncertaintyGrams, int? Decimals = null);

/// <summary>One feed given.</summary>
/// <param name="IntakeGrams">What was taken, where it was weighed before and after.</param>
internal readonly record struct Feed(Guid Id, DateOnly Day, DateTimeOffset At, decimal? IntakeGrams = null);

/// <summary>A settled weight, in the growth record or not: what a later weighing is compared with.</summary>
internal readonly record struct Settled(Guid Id, DateTimeOffset At, decimal Grams, decimal UncertaintyGrams);

/// <summary>What the core knows of the nursery: the register, the weights that stand and the feeds. From the store at start, then kept up by the core itself.</summary>
internal sealed class Ledger
{
    private readonly Dictionary<string, Chick> chicks;
    private readonly Dictionary<string, List<Weight>> weights = new(StringComparer.Ordinal);
    private readonly Dictionary<Guid, Weight> gaveWay = [];
    private readonly Dictionary<string, List<Feed>> feeds = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (Settled Newest, Settled? Before)> settled = new(StringComparer.Ordinal);
    private readonly Notes notes = new();

    /// <param name="observations">Oldest first; of those of earlier days the weaning counts here.</param>
    public Ledger(IEnumerable<Chick> chicks, IEnumerable<WeighingRow> weighings, IEnumerable<FeedRow> feeds, IReadOnlyList<ObservationRow>? observations = null)
    {
        this.chicks = chicks.ToDictionary(chick => chick.Code, StringComparer.Ordinal);
        foreach (var row in weighings)
        {
            if (row is { Chick: { } code, Verdict: Verdict.Accepted, Milligrams: { } milligrams })
                Add(code, new Weight(row.Id, row.Day, row.At, milligrams / 1000m, row.UncertaintyMilligrams / 1000m, row.Written?.Grams));
            if (row is { Chick: { } weighed, At: { } at, Milligrams: { } any, Origin: Origin.Captured } && Reasons.IsSettled(row.Reasons))
                Add(weighed, new Settled(row.Id, at, any / 1000m, (row.UncertaintyMilligrams ?? 0) / 1000m));
        }

        foreach (var row in feeds)
            Add(row.Chick, new Feed(row.Id, row.Day, row.At));
        foreach (var row in observations ?? [])
        {
            if (row.Kind == ObservationKinds.Weaning || row.Day >= observations![^1].Day)
                Add(new Note(row.Id, Notes.Observation, row.Chick, row.Kind, row.Day, row.At));
        }
    }

    /// <summary>The states of the batches of today and yesterday, oldest first.</summary>
    public IReadOnlyList<BatchRow> Batches { get; init; } = [];

    /// <summary>The present, or in a replay the trace's first moment, when this was read.</summary>
    public DateTimeOffset ReadAt { get; init; }

    /// <summary>Every check of every probe, oldest first.</summary>
    public IReadOnlyList<ProbeCheckRow> ProbeChecks { get; init; } = [];

    /// <summary>What the newest dips of each probe have shown of its lag, oldest first.</summary>
    public IReadOnlyList<ProbeLagRow> ProbeLags { get; init; } = [];

    /// <summary>How the chicks moved on the last mornings, and the scales at rest.</summary>
    public MotionMemory Motions { get; init; } = new([]);

    public IEnumerable<Chick> Chicks => chicks.Values;

    public Chick? Find(string code) => chicks.GetValueOrDefault(code);

    /// <summary>Codes of the chicks whose band is this transponder's number and that are in the nursery on the day.</summary>
    /// <param name="number">15 digits.</param>
    public IReadOnlyList<string> OfBand(string number, DateOnly day) =>
    [
        .. chicks.Values
            .Where(chick => chick.Band is { } band && Transponder.TryRead(band, out var known) && known == number && !(chick.Left <= day))
            .Select(chick => chick.Code)
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>The growth record of a chick, one weight a day, oldest first.</summary>
    public IReadOnlyList<Weight> WeightsOf(string code) => weights.TryGetValue(code, out var known) ? known : [];

    /// <summary>Since when the chick is being weaned, as a keeper said; null: nobody has.</summary>
    public DateOnly? WeaningOf(string code) => Weaning(code)?.Day;

    /// <summary>The moment of <see cref="WeaningOf"/>.</summary>
    public DateTimeOffset? WeaningSince(string code) => Weaning(code)?.At;

    private Note? Weaning(string code)
    {
        foreach (var note in notes.Find(Notes.Observation, code))
        {
            if (note.Word == ObservationKinds.Weaning)
                return note;
        }

        return null;
    }

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

    /// <summary>Codes of chicks that have been fed, as far back as feeds are kept.</summary>
    public IEnumerable<string> Fed => feeds.Where(pair => pair.Value.Count > 0).Select(pair => pair.Key);

    /// <summary>Feeds of a chick, oldest first.</summary>
    public IReadOnlyList<Feed> FeedsOf(string code) => feeds.TryGetValue(code, out var known) ? known : [];

    /// <summary>The chicks that live in a brooder on the day.</summary>
    public IEnumerable<Chick> InBrooder(string brooder, DateOnly day) => chicks.Values
        .Where(chick => chick.Brooder == brooder && !(chick.Hatched > day) && !(chick.Left <= day))
        .OrderBy(chick => chick.Code, StringComparer.Ordinal);

    /// <summary>The two newest settled weights of a chick, whatever their verdict.</summary>
    public (Settled Newest, Settled? Before)? LastSettled(string code) => settled.TryGetValue(code, out var known) ? known : null;

    public void Add(string code, Settled weight) =>
        settled[code] = (weight, settled.TryGetValue(code, out var known) ? known.Newest : null);

    /// <summary>When a keeper last saw the chick's crop full.</summary>
    public DateTimeOffset? SeenFullAt(string code) => notes.Find(Notes.Crop, code) is [.., var newest] ? newest.At : null;

    /// <summary>When a chore of hygiene was last done.</summary>
    public DateTimeOffset? LastDone(string chore) => notes.Find(Notes.Chore, chore) is [.., var newest] ? newest.At : null;

    /// <summary>A card wrote something down beside weighings and feeds.</summary>
    public void Add(in Note note) => notes.Add(note);

    /// <summary>What was taken at a feed became known.</summary>
    public void SetIntake(string code, Guid feed, decimal grams)
    {
        if (feeds.TryGetValue(code, out var known) && known.FindIndex(one => one.Id == feed) is >= 0 and var at)
            known[at] = known[at] with { IntakeGrams = grams };
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

    /// <summary>What an undo takes back: the newest weighing or feed of the day, of whatever chick; what another card wrote down since then while that is fresh,
    /// or where there is nothing else. Null if there is nothing.</summary>
    public Note? Newest(DateTimeOffset now, NurseryDay days)
    {
        var day = days.Of(now);
        Note? newest = null;
        var at = DateTimeOffset.MinValue;
        foreach (var (code, known) in weights)
        {
            if (known.Count > 0 && known[^1] is { At: { } moment } weight && weight.Day == day && moment >= at)
                (newest, at) = (new Note(weight.Id, Notes.Weighing, code, "", day, moment), moment);
        }

        foreach (var (code, known) in feeds)
        {
            if (known.Count > 0 && known[^1].Day == day && known[^1].At >= at)
                (newest, at) = (new Note(known[^1].Id, Notes.Feed, code, "", day, known[^1].At), known[^1].At);
        }

        return notes.Newest() is { } note && note.At >= at && days.Of(note.At) == day && (newest is null || now - note.At <= Cards.Waits) ? note : newest;
    }

    /// <summary>This feed and those of other chicks that were told with it, at the very same moment.</summary>
    public IReadOnlyList<(string Code, Guid Id)> FedWith(string code, Guid id)
    {
        var at = FeedsOf(code).First(feed => feed.Id == id).At;
        return [.. feeds.OrderBy(pair => pair.Key, StringComparer.Ordinal)
            .SelectMany(pair => pair.Value.Where(feed => feed.At == at).Select(feed => (pair.Key, feed.Id)))];
    }

    /// <summary>Takes back what a card wrote down beside weighings and feeds.</summary>
    public void Remove(in Note note) => notes.Remove(note.Id);

    /// <summary>Takes a weighing or a feed back. A row taken back replaces nothing: the weight that gave way to it stands again.</summary>
    public void Remove(string code, Guid id)
    {
        if (weights.TryGetValue(code, out var known) && known.RemoveAll(weight => weight.Id == id) > 0 && gaveWay.Remove(id, out var before))
            Add(code, before);
        Motions.Remove(code, id);
        if (feeds.TryGetValue(code, out var given))
            given.RemoveAll(feed => feed.Id == id);
        if (settled.TryGetValue(code, out var pair) && pair.Newest.Id == id)
        {
            settled.Remove(code);
            if (pair.Before is { } earlier)
                settled[code] = (earlier, null);
        }
    }
}
