using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding.Batches;
using CaptureAgent.Agent.Thriving;

namespace CaptureAgent.Agent.Round;

// Feeds: told by card, by a scan, by the scale, or for a whole brooder; what was taken; crops seen full.
internal sealed partial class DecisionMaker
{
    /// <summary>Weighings further apart say nothing of a feed between them: droppings and evaporation go on (common practice, no source).</summary>
    private static readonly TimeSpan RightAfter = TimeSpan.FromMinutes(60);

    /// <summary>What a feed can be, as a share of the weight before it: 8 to 12 % is usual; above 15 % something else changed (common practice, no source).</summary>
    private const decimal SmallestIntake = 0.005m, LargestIntake = 0.15m;

    /// <summary>A second weighing this much above the first tells of a feed by itself.</summary>
    private const decimal TellingIntake = 0.03m;

    /// <summary>The chick, or all chicks of the brooder, were fed now.</summary>
    public void FeedNamed(string code, DateTimeOffset at, List<StationEvent> events)
    {
        if (IsBrooder(code))
            FeedBrooder(code, at, events);
        else
            Feed(code, at, FeedWays.Card, events);
    }

    /// <summary>The code names a brooder of the register, and no chick.</summary>
    public bool IsBrooder(string code) => ledger.Find(code) is null && ledger.Chicks.Any(chick => chick.Brooder == code);

    /// <summary>Who of a brooder is weaned, and therefore not fed with it; null: nobody, or it is no brooder.</summary>
    public string? LeftOut(string brooder, DateTimeOffset at)
    {
        if (!IsBrooder(brooder))
            return null;
        List<string> weaned = [.. ledger.InBrooder(brooder, rules.Days.Of(at)).Where(chick => rules.Plan.IsWeaned(chick.Code, ledger, at)).Select(chick => chick.Code)];
        return weaned.Count > 0 ? $"Weaned, and not written down as fed: {string.Join(", ", weaned)}. Scan the fed card and the chick if it was fed." : null;
    }

    /// <summary>Weighed today and not fed since: scanned once more, the chick was fed, where the station works so.</summary>
    public bool IsReadyToBeFed(string code, DateTimeOffset at) =>
        ledger.MorningWeight(code, rules.Days.Of(at)) is { At: { } weighed } && !(ledger.LastFeed(code)?.At >= weighed);

    public void Feed(string code, DateTimeOffset at, string way, List<StationEvent> events)
    {
        var used = batches.InUse(at);
        var weaned = rules.Plan.IsWeaned(code, ledger, at);
        var feed = new FeedEvent(at, code, used?.Number, used?.State) { Id = ids.Next("feed", at), Day = rules.Days.Of(at), Way = way };
        ledger.Add(code, new Feed(feed.Id, feed.Day, at));
        Dues.OnFeed(code);
        events.Add(feed);
        batches.Fed(code, at, events);
        var chick = ledger.Find(code);
        if (chick is null)
            events.Add(new AlertEvent(at, "unknown-chick", code, null, $"The feed of {code} is written down, but the register has no such chick: add it, or check the code."));
        else if (chick.Left is { } left && left <= feed.Day)
            events.Add(new AlertEvent(at, "left", code, null, $"The feed of {code} is written down, but the register says that it left on {left:yyyy-MM-dd}: check the code, or mend the register."));
        else if (weaned)
            events.Add(new AlertEvent(at, "weaned", code, null, $"The feed of {code} is written down, but it is said to be weaned: check the code. If it needs formula again, tell the head keeper; a weanling that stops eating goes to an avian veterinarian."));
        if (way != FeedWays.Weighing && ledger.LastSettled(code) is { Newest: var after, Before: { } before } && !(LastFeedBefore(code, feed.Id)?.At >= before.At))
            TellIntake(code, before, after, at, expectFeed: true, events);
    }

    /// <summary>A keeper saw the chick's crop full when it should have been empty: a finding for the keeper and the veterinarian.</summary>
    public void SeeFull(string code, DateTimeOffset at, List<StationEvent> events)
    {
        var day = rules.Days.Of(at);
        var seen = new CropEvent(at, code) { Id = ids.Next("crop", at), Day = day };
        ledger.Add(new Note(seen.Id, Notes.Crop, code, "", day, at));
        events.Add(seen);
        events.Add(Told(Sentences.Seen(code, day, ObservationKinds.CropFull, (double?)ledger.MorningWeight(code, day)?.Grams)!, at));
        if (ledger.Find(code) is null)
            events.Add(new AlertEvent(at, "unknown-chick", code, null, $"The crop of {code} is written down, but the register has no such chick: add it, or check the code."));
    }

    /// <summary>A code was scanned for the pan: at the beginning of a round it is told what must be cleaned.</summary>
    public void BeginRound(string code, DateTimeOffset at, List<StationEvent> events) => rules.Hygiene.OnChick(code, at, ledger, events);

    /// <summary>A chore of hygiene was done.</summary>
    public void Done(string chore, DateTimeOffset at, List<StationEvent> events)
    {
        var done = new ChoreEvent(at, chore) { Id = ids.Next("chore", at) };
        ledger.Add(new Note(done.Id, Notes.Chore, null, chore, null, at));
        events.Add(done);
    }

    /// <summary>A card began a batch.</summary>
    public void Begun(Batch batch) => ledger.Add(new Note(batch.Id, Notes.Batch, null, "", batch.Day, batch.MixedAt));

    /// <summary>Takes back what was recorded last in this nursery day.</summary>
    public void Undo(DateTimeOffset at, List<StationEvent> events)
    {
        switch (ledger.Newest(at, rules.Days))
        {
            case null:
                events.Add(new AlertEvent(at, "nothing-to-undo", null, null, "Nothing of today is left to take back: no weighing, no feed, and nothing else that a card wrote down."));
                break;
            case { What: Notes.Weighing, Chick: { } code } weighing:
                ledger.Remove(code, weighing.Id);
                events.Add(Undone(weighing, at));
                break;
            // A brooder was fed by one card: it is taken back by one.
            case { What: Notes.Feed, Chick: { } fed } feed:
                foreach (var (code, id) in ledger.FedWith(fed, feed.Id))
                {
                    ledger.Remove(code, id);
                    Dues.OnFeed(code);
                    events.Add(Undone(feed with { Chick = code, Id = id }, at));
                }

                break;
            case { } note:
                ledger.Remove(note);
                events.Add(Undone(note, at));
                if (note.Word == ObservationKinds.Weaning)
                    morning = new MorningWatch(ledger);
                if (note.What == Notes.Batch)
                    batches.TakeBack(note.Id, at, events);
                break;
        }
    }

    private UndoEvent Undone(in Note note, DateTimeOffset at) =>
        new(at, note.Chick, note.What) { Id = ids.Next("undo", at), UndoneId = note.Id, Observation = note.What == Notes.Observation ? note.Word : null, Chore = note.What == Notes.Chore ? note.Word : null };

    private void FeedBrooder(string brooder, DateTimeOffset at, List<StationEvent> events)
    {
        var here = ledger.InBrooder(brooder, rules.Days.Of(at)).Where(chick => !rules.Plan.IsWeaned(chick.Code, ledger, at)).ToList();
        foreach (var chick in here)
            Feed(chick.Code, at, FeedWays.Brooder, events);
        if (here.Count == 0)
            events.Add(new AlertEvent(at, "empty-brooder", null, null, $"By the register no chick that is fed lives in brooder {brooder}: no feed is written down."));
    }

    // Weighed before and after a feed: the difference was taken.
    private void CompareWithBefore(string code, Settled now, List<StationEvent> events)
    {
        ledger.Add(code, now);
        if (ledger.LastSettled(code)?.Before is not { } before || now.At - before.At > RightAfter)
            return;
        if (ledger.LastFeed(code) is { IntakeGrams: null } feed && feed.At >= before.At)
        {
            TellIntake(code, before, now, now.At, expectFeed: false, events);
            return;
        }

        var taken = now.Grams - before.Grams;
        if (!rules.FeedFollowsWeighing || taken < TellingIntake * before.Grams || taken > LargestIntake * before.Grams || ledger.LastFeed(code)?.At >= before.At)
            return;
        Feed(code, now.At, FeedWays.Weighing, events);
        TellIntake(code, before, now, now.At, expectFeed: false, events);
    }

    /// <param name="expectFeed">The two weighings need not enclose a feed: the card came after both.</param>
    private void TellIntake(string code, in Settled before, in Settled after, DateTimeOffset at, bool expectFeed, List<StationEvent> events)
    {
        var taken = after.Grams - before.Grams;
        var share = taken / before.Grams;
        if (after.At - before.At > RightAfter || at - after.At > RightAfter || expectFeed && share < TellingIntake)
            return;
        if (share is < SmallestIntake or > LargestIntake)
        {
            events.Add(new AlertEvent(at, "intake-implausible", code, null, FormattableString.Invariant(
                $"{code}: {before.Grams:0.0} g before the feed and {after.Grams:0.0} g after it make {taken:0.0} g, which no feed is ({100 * SmallestIntake:0.#} to {100 * LargestIntake:0} % of the weight). It is not written down; change nothing between the two weighings, not the towel either.")));
            return;
        }

        var feed = ledger.LastFeed(code)!.Value;
        ledger.SetIntake(code, feed.Id, taken);
        events.Add(new IntakeEvent(at, code, taken, Milligram.Nearest(Math.Sqrt(Square(before.UncertaintyGrams) + Square(after.UncertaintyGrams))), Math.Round(100 * share, 2))
        {
            Id = ids.Next("intake", at),
            FeedId = feed.Id,
            BeforeId = before.Id,
            AfterId = after.Id,
        });
    }

    private Feed? LastFeedBefore(string code, Guid feed)
    {
        var known = ledger.FeedsOf(code);
        for (var i = known.Count - 1; i >= 0; i--)
        {
            if (known[i].Id != feed)
                return known[i];
        }

        return null;
    }

    private static double Square(decimal grams) => (double)(grams * grams);
}
