using CaptureAgent.Agent.Growth.Fitting;
using CaptureAgent.Agent.Growth.Models;
using CaptureAgent.Agent.Growth.References;
using CaptureAgent.Agent.Tests.Support;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth.Fitting;

/// <summary>Simulated chicks of the published curves, weighed every morning from hatching on: 7 % between chicks, a day early or late, 1 to 2 % of noise, half of it lasting.</summary>
public sealed class EndOfGrowthTests(ITestOutputHelper output)
{
    private const int Chicks = 300;

    [Theory]
    [InlineData(4, 0, 0)]
    [InlineData(5, 0, 0)]
    [InlineData(6, 0, 0)]
    [InlineData(8, 0, 0)]
    [InlineData(10, 0, 3)]
    [InlineData(12, 0, 3)]
    [InlineData(15, 0, 3)]
    [InlineData(20, 30, 6)]
    [InlineData(25, 90, 15)]
    [InlineData(30, 140, 21)]
    [InlineData(40, 210, 9)]
    [InlineData(60, 285, 6)]
    public void A_final_weight_is_told_where_growth_is_seen_to_end_and_seldom_a_wrong_one(int days, int leastTold, int mostWrong)
    {
        var before = Count(days, fit => fit.IsIdentifiable);
        var (told, wrong) = Count(days, fit => fit.IsTold);
        output.WriteLine($"{days} days: a curve fits {before.Told}, off by more than 30 % {before.Wrong}; told {told}, of these off {wrong}; of {Chicks}");

        Assert.InRange(told, leastTold, Chicks);
        Assert.InRange(wrong, 0, mostWrong);
    }

    [Fact]
    public void It_is_said_why_nothing_is_told()
    {
        double[] slow = [412, 0.13, 21], fast = [20, 0.9, 3];

        Assert.Matches("^4 weights are too few", Why(4, slow));
        Assert.Matches("^the heaviest weight is 66 % of the final weight", Why(27, slow));
        Assert.Matches("^the bend in the weights comes too soon .* 5 days from 10 % to 90 % of 20 g, where parrots of that weight take some 18$", Why(12, fast));
        Assert.Null(Why(45, slow));

        static string? Why(int days, double[] at)
        {
            double[] ages = [.. Enumerable.Range(0, days)];
            return EndOfGrowth.WhyNotShown(GrowthModel.Logistic, at, ages, [.. ages.Select(day => GrowthModel.Logistic.Grams(day, at))]);
        }
    }

    private static (int Told, int Wrong) Count(int days, Func<GrowthFit, bool> isTold)
    {
        var random = new Random(days);
        var fitter = new Fitter();
        var curves = PublishedSeries.All.Where(series => series.Curve is { } curve && curve.AsymptoteError < 0.1 * series.PeakGrams).Select(series => series.Curve!).ToList();
        var (told, wrong) = (0, 0);
        for (var chick = 0; chick < Chicks; chick++)
        {
            var curve = curves[chick % curves.Count];
            var (size, late, drift) = (Math.Exp(0.07 * random.NextNormal()), random.NextNormal(), 0.0);
            double[] ages = [.. Enumerable.Range(0, days)];
            double[] grams = [.. ages.Select(age =>
            {
                drift = 0.6 * drift + 0.008 * random.NextNormal();
                return Math.Round(size * curve.Grams(age - late) * Math.Exp(drift + (age > 7 ? 0.01 : 0.02) * random.NextNormal()), 1);
            })];
            if (GrowthModel.All.Select(model => fitter.FitToPeak(model, ages, grams)).OfType<GrowthFit>().Where(isTold).MinBy(fit => fit.Aicc) is not { } best)
                continue;
            told++;
            if (Math.Abs(best.Asymptote / (size * curve.Parameters[0]) - 1) > 0.3)
                wrong++;
        }

        return (told, wrong);
    }
}
