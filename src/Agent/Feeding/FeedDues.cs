using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;

namespace CaptureAgent.Agent.Feeding;

/// <summary>Tells each chick's next feed when it is due, and once more when it is late. A chick that no feed is known of is not waited for.</summary>
internal sealed class FeedDues(FeedPlan plan, NurseryDay days)
{
    // By moment, then by code: the order must not depend on when the feeds were learnt.
    private readonly PriorityQueue<Waiting, (DateTimeOffset At, string Code)> queue = new(Comparer<(DateTimeOffset At, string Code)>.Create(
        (one, other) => one.At != other.At ? one.At.CompareTo(other.At) : string.CompareOrdinal(one.Code, other.Code)));

    private Ledger? ledger;
    private DateTimeOffset? begun;

    /// <summary>Nothing is told before the station has begun to listen: what became due earlier stands in the list of feeds.</summary>
    public void Begin(DateTimeOffset at) => begun ??= at;

    /// <summary>Takes all feeds anew.</summary>
    public void Reload(Ledger anew)
    {
        ledger = anew;
        queue.Clear();
        foreach (var code in anew.Fed)
            OnFeed(code);
    }

    /// <summary>The chick was fed, or a feed of it was taken back.</summary>
    public void OnFeed(string code)
    {
        if (ledger!.LastFeed(code) is not { } feed || DueOf(code, feed) is not { } due)
            return;
        queue.Enqueue(new Waiting(code, feed.Id, due, false), (due, code));
        queue.Enqueue(new Waiting(code, feed.Id, due, true), (due + plan.Late, code));
    }

    public DateTimeOffset? Due
    {
        get
        {
            while (queue.TryPeek(out var next, out var moment))
            {
                if (begun is not null && moment.At > begun && Holds(next))
                    return moment.At;
                if (begun is null)
                    return null;
                queue.Dequeue();
            }

            return null;
        }
    }

    /// <summary>Fires what is due at exactly this moment.</summary>
    public void Fire(DateTimeOffset at, List<StationEvent> events)
    {
        while (Due <= at)
            Tell(queue.Dequeue(), at, events);
    }

    private void Tell(Waiting waiting, DateTimeOffset at, List<StationEvent> events)
    {
        var hours = (at - ledger!.LastFeed(waiting.Code)!.Value.At).TotalHours;
        if (waiting.Late)
            events.Add(new AlertEvent(at, "feed-late", waiting.Code, null, FormattableString.Invariant(
                $"{waiting.Code} is overdue: {hours:0.0} h since its last feed, {plan.Late.TotalMinutes:0} minutes beyond what the plan allows. Feed it if its crop is empty; if the crop is not, ask an avian veterinarian today.")));
        else
            events.Add(new DueEvent(at, "feed", waiting.Code, waiting.DueAt, FormattableString.Invariant($"{waiting.Code} is due: {hours:0.0} h since its last feed.")));
    }

    private DateTimeOffset? DueOf(string code, Feed feed)
    {
        if (ledger!.Find(code) is not { } chick || plan.IsWeaned(code, ledger, feed.At))
            return null;
        var day = days.Of(feed.At);
        if (chick.Left <= day)
            return null;
        return plan.DueAfter(feed.At, chick, chick.Hatched is { } hatched && hatched <= day ? day.DayNumber - hatched.DayNumber : null);
    }

    private bool Holds(Waiting waiting) => ledger!.LastFeed(waiting.Code)?.Id == waiting.Feed;

    private readonly record struct Waiting(string Code, Guid Feed, DateTimeOffset DueAt, bool Late);
}
