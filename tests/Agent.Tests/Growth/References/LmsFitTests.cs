using System.Globalization;
using CaptureAgent.Agent.Growth.References;
using CaptureAgent.Agent.Tests.Growth.Data;
using CaptureAgent.Agent.Tests.Support;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth.References;

public sealed class LmsFitTests
{
    // Quantiles of weight at two ages over the chicks of chick-weight.csv, by R 4.2.2's quantile(type = 7): 49 chicks at day 10, 46 at day 20.
    // A quantile of so few is itself uncertain: the standard error of the 10 % one is about a quarter of the standard deviation of 27 and 67 g.
    [Theory]
    [InlineData(10, 72.6, 93, 109, 124, 130, 27)]
    [InlineData(20, 122.5, 161, 204, 259, 293, 67)]
    public void Centiles_of_fifty_chicks_lie_where_their_quantiles_do(double age, double p10, double p25, double p50, double p75, double p90, double deviation)
    {
        var at = FowlFit().At(age);
        Assert.Equal(p10, at.Value(-1.2816), deviation * 0.3);
        Assert.Equal(p25, at.Value(-0.6745), deviation * 0.25);
        Assert.Equal(p50, at.M, deviation * 0.2);
        Assert.Equal(p75, at.Value(0.6745), deviation * 0.25);
        Assert.Equal(p90, at.Value(1.2816), deviation * 0.3);
    }

    // In the same data the coefficient of variation grows from 2.8 % at hatching to 32.7 % at day 21 (R 4.2.2, sd / mean).
    [Fact]
    public void The_spread_follows_the_age()
    {
        var fit = FowlFit();

        Assert.InRange(fit.At(0).S, 0.02, 0.06);
        Assert.InRange(fit.At(21).S, 0.27, 0.39);
    }

    [Theory]
    [InlineData(1.0)]
    [InlineData(0.0)]
    [InlineData(-1.0)]
    public void A_known_distribution_is_found_again(double power)
    {
        var random = new Random(11);
        var truth = (double age) => new Lms(power, 20 * Math.Exp(0.05 * age), 0.08 + 0.001 * age);
        List<ReferenceWeight> weights = [];
        for (var i = 0; i < 6000; i++)
        {
            var age = 60 * random.NextDouble();
            weights.Add(new ReferenceWeight(age, truth(age).Value(random.NextNormal()), 1));
        }

        var fit = new LmsFit(weights, new ReferencePrior(_ => Math.Log(80), 0.12, 2), 60);

        foreach (var age in new[] { 5.0, 20, 40, 55 })
        {
            var (found, expected) = (fit.At(age), truth(age));
            Assert.Equal(1, found.M / expected.M, 0.01);
            Assert.Equal(1, found.S / expected.S, 0.08);
            Assert.Equal(expected.L, found.L, 0.6);
            foreach (var z in new[] { -1.88, 1.88 })
                Assert.Equal(1, found.Value(z) / expected.Value(z), 0.02);
        }
    }

    [Fact]
    public void One_bad_weight_among_many_moves_the_centiles_by_little()
    {
        var weights = Fowl().ToList();
        var before = FowlFit().At(14);
        weights.Add(new ReferenceWeight(14, 1500, 0.3));

        var after = Fit(weights).At(14);

        Assert.Equal(1, after.M / before.M, 0.02);
        Assert.Equal(1, after.Value(-1.88) / before.Value(-1.88), 0.12);
    }

    private static LmsFit FowlFit() => Fit(Fowl());

    private static LmsFit Fit(IEnumerable<ReferenceWeight> weights) => new([.. weights], new ReferencePrior(age => Math.Log(42) + 0.08 * age, 0.12, 1), 21);

    // One weight an age and chick: at each age the chicks are independent, so that each weight counts in full.
    private static IEnumerable<ReferenceWeight> Fowl() => DataFile.Rows("chick-weight.csv").Select(row =>
        new ReferenceWeight(double.Parse(row["Time"], CultureInfo.InvariantCulture), double.Parse(row["weight"], CultureInfo.InvariantCulture), 1));
}
