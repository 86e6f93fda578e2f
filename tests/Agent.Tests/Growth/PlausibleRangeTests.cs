using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Round;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth;

public sealed class PlausibleRangeTests
{
    private static readonly DateOnly Today = new(2026, 3, 2);

    [Fact]
    public void Without_weights_there_is_none() => Assert.Null(PlausibleRange.FromHistory([], Today, 20));

    [Fact]
    public void A_weight_two_months_old_says_nothing() => Assert.Null(PlausibleRange.FromHistory([Day(-61, 100)], Today, 80));

    [Theory]
    [InlineData(100, true)]
    [InlineData(109, true)]
    [InlineData(88, true)]
    [InlineData(81, true)]
    [InlineData(75, false)]
    [InlineData(140, false)]
    public void Growth_crop_and_a_bad_loss_are_allowed_and_no_more(double grams, bool holds) =>
        Assert.Equal(holds, PlausibleRange.FromHistory([Day(-3, 90), Day(-2, 95), Day(-1, 100)], Today, 24)!.Value.Holds(grams, 0.1));

    [Fact]
    public void A_hatchling_may_gain_nearly_half_in_a_day() =>
        Assert.True(PlausibleRange.FromHistory([Day(-1, 4)], Today, 2)!.Value.Holds(5.8, 0.1));

    [Fact]
    public void The_likely_weight_follows_the_chick_s_own_trend() =>
        Assert.Equal(186.5, PlausibleRange.FromHistory([Day(-2, 168.9m), Day(-1, 177.5m)], Today, 24)!.Value.Likely, 0.1);

    private static Weight Day(int offset, decimal grams) => new(Guid.NewGuid(), Today.AddDays(offset), null, grams, null);
}
