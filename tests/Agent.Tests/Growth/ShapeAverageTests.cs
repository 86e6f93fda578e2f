using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Round;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth;

public sealed class ShapeAverageTests
{
    private static readonly DateOnly Today = new(2026, 3, 2);

    private readonly ShapeAverage average = new();

    /// <summary>
    /// Logistic of Ara glaucogularis: A 845 g, K 0.1276 a day, inflection at day 27.27; Gompertz of Nymphicus hollandicus: A 101.3 g, K 0.1191, 11.52
    /// (fits to weights digitised from Switzer 2008 and Pearson 1998).
    /// </summary>
    [Theory]
    [InlineData(true, 12)]
    [InlineData(true, 27)]
    [InlineData(true, 45)]
    [InlineData(false, 12)]
    [InlineData(false, 25)]
    public void A_chick_on_a_published_curve_is_foretold_within_two_per_cent(bool logistic, int age)
    {
        double Grams(int day) => logistic ? 845 / (1 + Math.Exp(-0.1276 * (day - 27.27))) : 101.3 * Math.Exp(-Math.Exp(-0.1191 * (day - 11.52)));
        var expected = average.For(Weights(age, Grams), Today, age, null)!.Value;
        Assert.InRange(expected.Grams / Grams(age), 0.98, 1.02);
        Assert.InRange(expected.Deviation, 0.005, 0.035);
    }

    /// <summary>The same curve, known by the name of the species: nearer, whatever the size of the chick.</summary>
    [Theory]
    [InlineData(12)]
    [InlineData(27)]
    [InlineData(45)]
    public void A_chick_of_a_listed_species_is_foretold_within_half_a_per_cent(int age)
    {
        double Grams(int day) => 1.15 * 845 / (1 + Math.Exp(-0.1276 * (day - 27.27)));
        Assert.InRange(average.For(Weights(age, Grams), Today, age, "Ara glaucogularis")!.Value.Grams / Grams(age), 0.995, 1.005);
    }

    [Fact]
    public void One_mistaken_morning_hardly_moves_what_is_foretold()
    {
        double Grams(int day) => 845 / (1 + Math.Exp(-0.1276 * (day - 27.27)));
        var clean = average.For(Weights(30, Grams), Today, 30, null)!.Value;
        var fed = average.For(Weights(30, day => day == 27 ? 1.12 * Grams(day) : Grams(day)), Today, 30, null)!.Value;
        Assert.InRange(fed.Grams / clean.Grams, 0.98, 1.02);
    }

    [Fact]
    public void A_chick_that_scatters_more_is_foretold_with_a_wider_spread()
    {
        double Grams(int day) => 845 / (1 + Math.Exp(-0.1276 * (day - 27.27)));
        var steady = average.For(Weights(30, Grams), Today, 30, null)!.Value;
        var restless = average.For(Weights(30, day => Grams(day) * (day % 2 == 0 ? 1.03 : 0.97)), Today, 30, null)!.Value;
        Assert.True(restless.Deviation > 1.4 * steady.Deviation);
    }

    [Fact]
    public void Too_few_mornings_too_long_ago_or_no_age_foretell_nothing()
    {
        double Grams(int day) => 845 / (1 + Math.Exp(-0.1276 * (day - 27.27)));
        var all = Weights(30, Grams);
        Assert.Null(average.For([.. all.TakeLast(3)], Today, 30, null));
        Assert.Null(average.For(all, Today, null, null));
        Assert.Null(average.For(all, Today.AddDays(20), 50, null));
        Assert.Null(average.For([], Today, 30, null));
    }

    [Fact]
    public void Today_s_own_weight_is_not_looked_at()
    {
        double Grams(int day) => 845 / (1 + Math.Exp(-0.1276 * (day - 27.27)));
        var before = average.For(Weights(30, Grams), Today, 30, null);
        Weight[] withToday = [.. Weights(30, Grams), new Weight(Guid.NewGuid(), Today, null, 999, null)];
        Assert.Equal(before, average.For(withToday, Today, 30, null));
    }

    private static Weight[] Weights(int age, Func<int, double> grams) =>
        [.. Enumerable.Range(1, age - 1).Select(day => new Weight(Guid.NewGuid(), Today.AddDays(day - age), null, Milligram.Nearest(grams(day)), null))];
}
