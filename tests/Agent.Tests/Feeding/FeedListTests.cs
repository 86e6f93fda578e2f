using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Feeding;
using CaptureAgent.Agent.Round;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding;

public sealed class FeedListTests
{
    private static readonly DateTimeOffset Now = new(2026, 3, 2, 15, 0, 0, TimeSpan.Zero);

    private static readonly NurseryDay Days = new(TimeZoneInfo.Utc, new TimeOnly(3, 0));

    private readonly Ledger ledger = new(
        [
            new Chick("AM-0147", "amazon", new DateOnly(2026, 2, 6), Brooder: "B3"),
            new Chick("AM-0148", "amazon", new DateOnly(2026, 2, 6)),
            new Chick("AM-0149", "amazon", new DateOnly(2026, 2, 6)),
            new Chick("AM-0150", "amazon", new DateOnly(2026, 2, 6), Left: new DateOnly(2026, 3, 1)),
            new Chick("AM-0151", "amazon", new DateOnly(2026, 2, 6)),
        ],
        [], []);

    [Fact]
    public void The_most_overdue_comes_first_and_a_chick_without_feeds_last()
    {
        Fed("AM-0147", 8, 6);
        Fed("AM-0148", 2);
        var options = new FeedingOptions();
        options.Chicks.Add(new ChickPlanOptions { Chick = "AM-0151", Weaned = true });
        var standings = FeedList.At(Now, ledger, new FeedPlan(options, TimeZoneInfo.Utc), Days);
        Assert.Equal(
            [("AM-0147", "late"), ("AM-0148", "later"), ("AM-0149", "unknown"), ("AM-0151", "weaned")],
            standings.Select(one => (one.Chick.Code, one.State)));
        Assert.Equal(Now.AddHours(-1), standings[0].DueAt);
        Assert.Equal(2, standings[0].FeedsToday);
    }

    [Fact]
    public void The_longest_fast_is_named_and_told_where_the_plan_did_not_allow_it()
    {
        Fed("AM-0147", 25, 13, 7.5, 2);
        var standing = FeedList.At(Now, ledger, new FeedPlan(new FeedingOptions(), TimeZoneInfo.Utc), Days)[0];
        Assert.Equal(TimeSpan.FromHours(12), standing.LongestFast);
        Assert.True(standing.FastExceeded);
    }

    [Fact]
    public void A_night_that_was_kept_is_no_fast_beyond_the_plan()
    {
        // 22:00, then 06:15, 11:00 and 14:00.
        Fed("AM-0147", 17, 8.75, 4, 1);
        var standing = FeedList.At(Now, ledger, new FeedPlan(new FeedingOptions(), TimeZoneInfo.Utc), Days)[0];
        Assert.Equal(TimeSpan.FromHours(8.25), standing.LongestFast);
        Assert.False(standing.FastExceeded);
    }

    private void Fed(string code, params double[] hoursAgo)
    {
        foreach (var hours in hoursAgo)
            ledger.Add(code, new Feed(Guid.NewGuid(), Days.Of(Now.AddHours(-hours)), Now.AddHours(-hours)));
    }
}
