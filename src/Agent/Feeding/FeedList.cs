using CaptureAgent.Agent.Round;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Feeding;

/// <summary>How one chick stands with its feeds.</summary>
/// <param name="DueAt">Null: no feed of it is known, or it is weaned.</param>
/// <param name="State">late, due, later, unknown (no feed is known) or weaned.</param>
/// <param name="LongestFast">Between two feeds, or since the last, of the last two days; null: no feed is known.</param>
/// <param name="LongestPlanned">What the plan allowed at that time.</param>
internal sealed record FeedStanding(
    Chick Chick, int? AgeDays, TimeSpan Every, DateTimeOffset? LastFeed, decimal? LastIntakeGrams, int FeedsToday, DateTimeOffset? DueAt, string State,
    TimeSpan? LongestFast, TimeSpan? LongestPlanned)
{
    public bool FastExceeded => LongestFast > LongestPlanned;
}

/// <summary>Who is due, who is late, and who has fasted for how long.</summary>
internal static class FeedList
{
    /// <summary>Fasts of so many days are looked at.</summary>
    private static readonly TimeSpan LookedAt = TimeSpan.FromDays(2);

    /// <summary>The chicks that are here: the most overdue first, then by code.</summary>
    public static IReadOnlyList<FeedStanding> At(DateTimeOffset now, Ledger ledger, FeedPlan plan, NurseryDay days)
    {
        var today = days.Of(now);
        return [.. ledger.Chicks
            .Where(chick => !(chick.Hatched > today) && !(chick.Left <= today))
            .Select(chick => Standing(chick, now, today, ledger, plan))
            .OrderBy(standing => standing.DueAt ?? DateTimeOffset.MaxValue)
            .ThenBy(standing => standing.Chick.Code, StringComparer.Ordinal)];
    }

    private static FeedStanding Standing(Chick chick, DateTimeOffset now, DateOnly today, Ledger ledger, FeedPlan plan)
    {
        var age = today.DayNumber - chick.Hatched?.DayNumber;
        var feeds = ledger.FeedsOf(chick.Code).Where(feed => feed.At <= now).ToList();
        var isWeaned = plan.IsWeaned(chick.Code, ledger, now);
        Feed? last = feeds.Count > 0 ? feeds[^1] : null;
        var due = last is { } fed && !isWeaned ? plan.DueAfter(fed.At, chick, age) : (DateTimeOffset?)null;
        var state = (isWeaned, due) switch
        {
            (true, _) => "weaned",
            (_, null) => "unknown",
            (_, { } at) => at + plan.Late <= now ? "late" : at <= now ? "due" : "later",
        };
        var (fast, planned) = isWeaned ? (null, null) : LongestFast(feeds, now, chick, age, plan);
        return new FeedStanding(
            chick, age, plan.EveryOf(chick, age), last?.At, last?.IntakeGrams, feeds.Count(feed => feed.Day == today), due, state, fast, planned);
    }

    private static (TimeSpan? Fast, TimeSpan? Planned) LongestFast(List<Feed> feeds, DateTimeOffset now, Chick chick, int? age, FeedPlan plan)
    {
        TimeSpan? longest = null, planned = null;
        for (var i = 0; i < feeds.Count; i++)
        {
            var end = i + 1 < feeds.Count ? feeds[i + 1].At : now;
            var fast = end - feeds[i].At;
            if (now - end > LookedAt || fast <= longest)
                continue;
            (longest, planned) = (fast, plan.DueAfter(feeds[i].At, chick, age) + plan.Late - feeds[i].At);
        }

        return (longest, planned);
    }
}
