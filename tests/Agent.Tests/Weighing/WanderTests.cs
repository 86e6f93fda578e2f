using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>An animal's motion averages out; a draught's, or a touching towel's, does not.</summary>
public sealed class WanderTests
{
    // From memory (Schoenberg 1946): the quadratic B-spline of unit knots keeps sinc³(f) of a motion of f Hz.
    [Theory]
    [InlineData(0.25)]
    [InlineData(0.5)]
    [InlineData(0.8)]
    [InlineData(1)]
    public void A_slow_mean_keeps_the_cube_of_the_sinc_of_a_motion(double hertz)
    {
        var series = Series(301, i => 186 + 3 * Math.Cos(2 * Math.PI * hertz * (i * 0.01 - 1.5)), 0.01);
        var sinc = Math.Sin(Math.PI * hertz) / (Math.PI * hertz);
        Assert.Equal(186 + 3 * sinc * sinc * sinc, series.Smooth(0, 100, 200, 300), 0.005);
    }

    [Fact]
    public void Uneven_knots_leave_a_still_weight_and_its_straight_drift_alone()
    {
        var series = Series(60, i => 186 + 0.02 * i);
        Assert.Equal(186 + 0.02 * (3 + 10 + 19 + 41) / 4, series.Smooth(3, 10, 19, 41), 1e-6);
    }

    [Theory]
    [InlineData(0.8)]
    [InlineData(1.5)]
    public void A_bobbing_chick_does_not_wander(double hertz)
    {
        var series = Series(100, i => 186 + 3 * Math.Sin(2 * Math.PI * hertz * i * 0.1));
        Assert.InRange(Wander.Of(series, 0, Wander.SlowSeconds, 186, 20, 0.1).Spread, 0, 0.1);
    }

    [Fact]
    public void A_force_that_forgets_itself_in_a_second_wanders()
    {
        // First-order autoregressive, phi = exp(-0.1/1.0); the variance of its mean over T is about 2·sigma²/T (Bayley and Hammersley 1946, effective sample size; from memory).
        var random = new Random(7);
        var phi = Math.Exp(-0.1);
        int wanders = 0, covered = 0;
        for (var run = 0; run < 100; run++)
        {
            double x = random.NextNormal(), sum = 0;
            var series = Series(120, _ =>
            {
                x = phi * x + Math.Sqrt(1 - phi * phi) * random.NextNormal();
                sum += x;
                return 186 + 3 * x;
            });
            var wander = Wander.Of(series, 0, Wander.SlowSeconds, 186, 50, 0.1);
            wanders += wander.Spread > 0.4 * 0.56 && wander.Spread > wander.White ? 1 : 0;
            covered += 3 * Math.Abs(sum / 120) < 2 * wander.Error(12) ? 1 : 0;
        }

        Assert.InRange(wanders, 98, 100);
        Assert.InRange(covered, 70, 100);
    }

    [Fact]
    public void Readings_too_rare_to_show_strides_are_allowed_the_wander_of_white_noise()
    {
        var random = new Random(11);
        var within = 0;
        for (var run = 0; run < 100; run++)
        {
            var wander = Wander.Of(Series(40, _ => 186 + 3 * random.NextNormal(), 0.5), 0, Wander.SlowSeconds, 186, 50, 0.1);
            within += wander.Spread < 1.1 * wander.White ? 1 : 0;
        }

        Assert.InRange(within, 60, 100);
    }

    [Fact]
    public void A_mean_over_a_burst_tells_nothing() =>
        Assert.Equal(0, Wander.Of(Series(60, i => i % 10 == 5 ? 300 : 186), 0, Wander.SlowSeconds, 186, 20, 0.1).Count);

    // R 4.2.2: sqrt(qchisq(pnorm(-0.6), 0.8 * 7) / (0.8 * 7)) = 0.7691; what a force of a second's memory keeps at knots of one second: see the next test.
    [Theory]
    [InlineData(0.758, true)]
    [InlineData(0.780, false)]
    public void Few_means_may_be_small_by_chance(double share, bool isBelow) =>
        Assert.Equal(isBelow, new Wander(share * 0.78 * 3, 0, 8, Wander.SlowSeconds).IsBelow(3));

    // R 4.2.2, the double integral of B(t)·B(s)·exp(-|t-s|) over the quadratic B-spline of knots 0.5, 1 and 2 s: 0.876, 0.782 and 0.650 (square roots).
    [Theory]
    [InlineData(Wander.QuickSeconds, 0.876)]
    [InlineData(Wander.SlowSeconds, 0.782)]
    [InlineData(Wander.SlowestSeconds, 0.650)]
    public void What_a_force_that_forgets_itself_in_a_second_keeps(double knot, double kept)
    {
        var random = new Random(3);
        var phi = Math.Exp(-0.1);
        double squares = 0;
        for (var run = 0; run < 60; run++)
        {
            var x = random.NextNormal();
            var series = Series(1200, _ => 186 + 3 * (x = phi * x + Math.Sqrt(1 - phi * phi) * random.NextNormal()));
            var spread = Wander.Of(series, 0, knot, 186, 500, 0.1).Spread;
            squares += spread * spread;
        }

        Assert.Equal(3 * kept, Math.Sqrt(squares / 60), 0.12);
    }

    [Fact]
    public void A_chick_s_own_strides_favour_it_and_a_force_s_wander_does_not()
    {
        var wander = new Wander(0.3, 0, 9, Wander.SlowSeconds);
        Assert.InRange(wander.Favour(3, 0.1), 1, 10);
        Assert.InRange(wander.Favour(0.4, 0.1), -10, -1);
    }

    [Fact]
    public void Readings_too_rare_to_show_strides_favour_nobody() =>
        Assert.InRange(new Wander(1.2, 1.3, 9, Wander.SlowSeconds).Favour(1.2, 0.1), -0.5, 0.5);

    [Fact]
    public void More_means_tell_more() =>
        Assert.True(new Wander(0.3, 0, 12, Wander.SlowSeconds).Favour(3, 0.1) > new Wander(0.3, 0, 2, Wander.SlowSeconds).Favour(3, 0.1));

    private static ImpulseSeries Series(int count, Func<int, double> grams, double interval = 0.1)
    {
        var series = new ImpulseSeries();
        for (var i = 0; i < count; i++)
            series.Add(i * interval, grams(i), resumed: false);
        return series;
    }
}
