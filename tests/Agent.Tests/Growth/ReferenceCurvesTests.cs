using CaptureAgent.Agent.Growth;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth;

public sealed class ReferenceCurvesTests
{
    // Weights at day 14 and 28, read off the figures of the papers named: within a factor of two of the curves, either way.
    [Theory]
    [InlineData("Cyanopsitta spixii", 14, 101)] // Tschudin et al. 2010, Int. Zoo Yb. 44, feeding group 1
    [InlineData("Cyanopsitta spixii", 28, 249)] // the same, group 4
    [InlineData("Cacatua moluccensis", 14, 121)] // Sweeney 2000, Int. Zoo Yb. 37
    [InlineData("Ara ararauna", 28, 411)] // Hanson 1987, Zoo Biology 6
    [InlineData("myiopsitta monachus", 14, 40)] // Petzinger, Heatley and Bauer 2015
    public void A_published_weight_lies_within_its_species_range(string species, int age, double grams) =>
        Assert.True(ReferenceCurves.At(species, age)!.Value.Holds(grams, 0));

    [Fact]
    public void A_macaw_s_weight_is_no_lovebird_s() => Assert.False(ReferenceCurves.At("Rosy-faced lovebird", 28)!.Value.Holds(411, 0));

    [Fact]
    public void A_species_that_is_not_listed_has_no_range() => Assert.Null(ReferenceCurves.At("amazon", 20));
}
