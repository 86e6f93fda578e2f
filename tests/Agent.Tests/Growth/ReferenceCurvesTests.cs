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

    // Kea: the asymptote is 7798 g, with a standard error of nine tenths of it.
    [Theory]
    [InlineData("Pink cockatoo")]
    [InlineData("Nestor notabilis")]
    public void A_series_that_ends_long_before_growth_does_tells_the_range_at_its_ages_but_not_where_growth_ends(string species)
    {
        Assert.NotNull(ReferenceCurves.At(species, 14));
        Assert.Empty(ReferenceCurves.GrowthAt(species, 14));
        Assert.Null(PublishedGrowth.Instance.At(species, 14));
    }

    [Theory]
    [InlineData("Cape parrot")] // standard errors of 18 and 25 %
    [InlineData("Cockatiel")]
    public void One_that_nearly_shows_the_end_of_growth_tells_it(string species) => Assert.NotNull(PublishedGrowth.Instance.At(species, 14));

    [Fact]
    public void A_species_that_is_not_listed_has_no_range() => Assert.Null(ReferenceCurves.At("amazon", 20));
}
