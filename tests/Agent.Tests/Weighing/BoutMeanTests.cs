using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>The weight of a chick that moves more often than the scale reads.</summary>
public sealed class BoutMeanTests
{
    private const int Readings = 40;
    private const int Runs = 400;

    [Fact]
    public void White_noise_makes_the_error_that_the_root_of_the_number_says()
    {
        // sigma/sqrt(n) for the mean of independent readings; that their variances must be found costs a tenth.
        var (error, ratio, _) = Errors((random, _) => random.NextNormal());
        Assert.InRange(error * Math.Sqrt(Readings), 0.9, 1.2);
        Assert.InRange(ratio, 0.85, 1.15);
    }

    [Fact]
    public void Between_bouts_of_motion_the_weight_shows()
    {
        // Four seconds of a deviation of 1 g, then two and a half of 0.25 g: the plain mean errs by the root of their mean square over the root of n.
        var (error, ratio, _) = Errors((random, seconds) => random.NextNormal() * (seconds % 6.5 < 4 ? 1 : 0.25));
        var plain = Math.Sqrt((4 + 2.5 * 0.0625) / 6.5 / Readings);
        Assert.InRange(error, 0.4 * plain, 0.9 * plain);
        Assert.InRange(ratio, 0.85, 1.15);
    }

    [Fact]
    public void A_skewed_force_pulls_it_by_less_than_half_of_its_error()
    {
        // The sum of four exponentials less its mean has a skewness of 2/sqrt(4) = 1.
        var (error, _, mean) = Errors((random, _) => (Exponential(random) + Exponential(random) + Exponential(random) + Exponential(random) - 4) / 2);
        Assert.InRange(Math.Abs(mean), 0, 0.5 * error);
    }

    [Fact]
    public void What_neighbours_undo_is_no_error()
    {
        // Each reading is its noise less that of the one before, so that all but the ends cancel: the mean errs by 1/n. Half of what cancels is counted (Bartlett's weight at half a
        // second), so that sqrt(1/2n) is stated: 4.5 times as much, and 6.3 times if nothing were.
        var before = 0.0;
        var (error, ratio, _) = Errors((random, _) =>
        {
            var fresh = random.NextNormal();
            var off = (fresh - before) / Math.Sqrt(2);
            before = fresh;
            return off;
        });
        Assert.InRange(error * Math.Sqrt(Readings), 0, 0.5);
        Assert.InRange(ratio, 0.19, 0.35);
    }

    [Fact]
    public void A_flap_is_no_stride()
    {
        var series = Series(20, i => 100 + (i % 2 == 0 ? 0.3 : -0.3) + (i is 7 or 8 ? 25 : 0));
        var mean = new BoutMean();
        Assert.True(mean.TryFind(series, 0, 100, 2.5));
        Assert.Equal(100, mean.Grams, 0.1);
        Assert.InRange(mean.Error, 0, 0.15);
    }

    [Fact]
    public void Of_too_few_readings_nothing_is_said()
    {
        var series = Series(BoutMean.LeastReadings + 1, i => i < 2 ? 130 : 100 + 0.1 * i);
        Assert.False(new BoutMean().TryFind(series, 0, 100, 2.5));
    }

    [Theory]
    [InlineData(0.5, true)]
    [InlineData(0.1, false)]
    public void Ten_readings_a_second_show_strides_and_two_do_not(double interval, bool isRare)
    {
        var random = new Random(3);
        var series = Series(Readings, _ => 100 + random.NextNormal(), interval);
        Assert.Equal(isRare, BoutMean.IsFor(series.Line(0, series.Count, 0)));
    }

    // Root mean square error; that over the error stated; the mean error.
    private static (double Error, double Ratio, double Mean) Errors(Func<Random, double, double> off)
    {
        var random = new Random(5);
        var mean = new BoutMean();
        double squares = 0, stated = 0, sum = 0;
        for (var run = 0; run < Runs; run++)
        {
            Assert.True(mean.TryFind(Series(Readings, i => 100 + off(random, i * 0.5 + run * 1.7)), 0, 100, 50));
            squares += (mean.Grams - 100) * (mean.Grams - 100);
            stated += mean.Error * mean.Error;
            sum += mean.Grams - 100;
        }

        return (Math.Sqrt(squares / Runs), Math.Sqrt(squares / stated), sum / Runs);
    }

    private static ImpulseSeries Series(int count, Func<int, double> grams, double interval = 0.5)
    {
        var series = new ImpulseSeries();
        for (var i = 0; i < count; i++)
            series.Add(i * interval, grams(i), false);
        return series;
    }

    private static double Exponential(Random random) => -Math.Log(1 - random.NextDouble());
}
