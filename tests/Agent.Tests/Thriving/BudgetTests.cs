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

    /// <summary>Of the budget for weights above the course, spent on all chicks alike, 0.58 looks for 100 chicks: the normal quantile of 0.58 % is 2.52 (any table).</summary>
    [Fact]
    public void A_room_of_growing_chicks_spends_its_share_and_no_more() =>
        Assert.Equal(2.52, Thresholds(growing: 12, weaned: 0).TooGood, 0.06);

    private static (double TooGood, double Shortfall) Thresholds(int growing, int weaned)
    {
        (double, double) found = default;
        List<WatchedChick> chicks =
        [
            .. Enumerable.Range(0, growing).Select(i => SimulatedCourse.Chick(SimulatedCourse.Code(i), 8, Days)),
            .. Enumerable.Range(0, weaned).Select(i => SimulatedCourse.Chick(SimulatedCourse.Code(50 + i), 60, Days)),
        ];
        RoomReview.Of(chicks, PublishedGrowth.Instance, SimulatedCourse.First.AddDays(Days - 1), Tuning.Usual, morning =>
        {
            var watch = morning.Watches.First(each => each.Chick.Code == SimulatedCourse.Code(0));
            found = (morning.Budget.TooGood(watch), morning.Budget.Shortfall(watch));
        });
        return found;
    }
}
