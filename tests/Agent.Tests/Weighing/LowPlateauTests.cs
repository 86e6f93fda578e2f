using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

public sealed class LowPlateauTests
{
    [Theory]
    [InlineData(90, 690, 600, true)]
    [InlineData(2.3, 7.8, 5.3, true)]
    [InlineData(90, 630, 600, false)]
    [InlineData(2.3, 5.4, 5.3, false)]
    [InlineData(200, 620, 600, false)]
    [InlineData(100, 540, 600, false)]
    public void A_load_is_too_heavy_by_a_lower_level_only_where_without_it_the_chick_weighs_far_likelier_what_it_should(double low, double net, double expected, bool makesUp) =>
        Assert.Equal(makesUp, new LowPlateau(low, IsStill: true).MakesUp(net, expected));

    [Theory]
    [InlineData(180, 8, true)]
    [InlineData(180, 4, false)]
    [InlineData(900, 8, false)]
    public void What_outlasts_a_hand_and_is_much_lower_lay_there(double low, double seconds, bool outlasts) =>
        Assert.Equal(outlasts, new LowPlateau(low, IsStill: false, seconds).OutlastsHand(1214));

    [Fact]
    public void No_lower_level_makes_up_for_nothing() => Assert.False(LowPlateau.None.MakesUp(700, 600));
}
