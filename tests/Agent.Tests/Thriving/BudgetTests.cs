using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

/// <summary>One morning's looks are divided among the chicks that were weighed.</summary>
public sealed class BudgetTests
{
    private const int Days = 12;

    [Fact]
    public void A_growing_chick_among_weaned_ones_is_looked_at_sooner_than_among_growing_ones()
    {
        var (among, other) = (Thresholds(growing: 2, weaned: 10), Thresholds(growing: 12, weaned: 0));
        Assert.True(among.TooGood < other.TooGood);
        Assert.True(among.Shortfall < other.Shortfall);
    }

    /// <summary>Of the budget for weights above the course, spent on all chicks alike, 0.54 looks for 100 chicks: the normal quantile of 0.54 % is 2.55 (any table).</summary>
    [Fact]
    public void A_room_of_growing_chicks_spends_its_share_and_no_more() =>
        Assert.Equal(2.55, Thresholds(growing: 12, weaned: 0).TooGood, 0.06);

    [Fact]
    public void Only_the_first_weights_are_trusted_less()
    {
        var (third, fourth, twelfth) = (Thresholds(12, 0, days: 3).TooGood, Thresholds(12, 0, days: 4).TooGood, Thresholds(12, 0, days: 12).TooGood);
        Assert.Equal(twelfth, fourth, 0.01);
        Assert.True(third > 1.3 * fourth);
    }

    private static (double TooGood, double Shortfall) Thresholds(int growing, int weaned, int days = Days)
    {
        (double, double) found = default;
        List<WatchedChick> chicks =
        [
            .. Enumerable.Range(0, growing).Select(i => SimulatedCourse.Chick(SimulatedCourse.Code(i), 8, days)),
            .. Enumerable.Range(0, weaned).Select(i => SimulatedCourse.Chick(SimulatedCourse.Code(50 + i), 60, days)),
        ];
        RoomReview.Of(chicks, PublishedGrowth.Instance, SimulatedCourse.First.AddDays(days - 1), Tuning.Usual, morning =>
        {
            var watch = morning.Watches.First(each => each.Chick.Code == SimulatedCourse.Code(0));
            found = (morning.Budget.TooGood(watch), morning.Budget.Shortfall(watch));
        });
        return found;
    }
}
