using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

public sealed class ChickDayTests
{
    private static readonly DateOnly Day = new(2026, 3, 10);

    [Fact]
    public void Gain_and_rate_cross_missing_days()
    {
        // 100 g to 121 g in two days: 21 % in all, 10 % a day.
        var chick = new WatchedChick("AM-0001", null, Day.AddDays(-20), null, null, [Weight(-2, 100), Weight(0, 121)]);
        var today = Assert.Single(MorningSummary.Of([chick], PublishedGrowth.Instance, Day).Chicks);
        Assert.Equal((20, 121.0), (today.AgeDays, today.Grams));
        Assert.Equal(21, today.GainPercent!.Value, 1e-9);
        Assert.Equal(10, today.RatePercentPerDay!.Value, 1e-9);
    }

    [Fact]
    public void Later_weights_are_not_known_on_the_day()
    {
        var chick = new WatchedChick("AM-0001", null, Day.AddDays(-20), null, null, [Weight(-1, 100), Weight(1, 400)]);
        var today = Assert.Single(MorningSummary.Of([chick], PublishedGrowth.Instance, Day).Chicks);
        Assert.Null(today.Grams);
        Assert.Null(today.GainPercent);
        Assert.InRange(today.ExpectedGrams!.Value, 95, 125);
    }

    [Fact]
    public void A_chick_hatched_after_the_day_is_left_out_and_one_that_left_too()
    {
        WatchedChick[] chicks = [new("AM-0001", null, Day.AddDays(1), null, null, []), new("AM-0002", null, Day.AddDays(-50), null, Day, [Weight(-1, 300)])];
        Assert.Empty(MorningSummary.Of(chicks, PublishedGrowth.Instance, Day).Chicks);
    }

    [Fact]
    public void The_first_weight_has_no_forecast()
    {
        var chick = new WatchedChick("AM-0001", "no such species", null, null, null, [Weight(0, 100)]);
        Assert.Null(Assert.Single(MorningSummary.Of([chick], PublishedGrowth.Instance, Day).Chicks).ExpectedGrams);
    }

    [Theory]
    [InlineData(null, null)]
    [InlineData(20, null)]
    [InlineData(1, "Hatchling")]
    public void Of_a_chick_that_was_never_weighed_age_alone_tells_the_stage(int? age, string? stage)
    {
        var chick = new WatchedChick("AM-0001", null, Day.AddDays(-age ?? 0), null, null, []);
        var today = Assert.Single(MorningSummary.Of([age is null ? chick with { Hatched = null } : chick], PublishedGrowth.Instance, Day).Chicks);
        Assert.Equal(stage, today.Stage?.ToString());
    }

    private static MorningWeight Weight(int day, decimal grams) => new(Day.AddDays(day), grams, null, 1);
}
