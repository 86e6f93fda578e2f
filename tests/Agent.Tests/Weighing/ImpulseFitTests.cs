using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>The weight of what moves: the slope of the impulse over time.</summary>
public sealed class ImpulseFitTests
{
    [Theory]
    [InlineData(0.7)]
    [InlineData(1.3)]
    [InlineData(3.1)]
    public void A_chick_that_bobs_is_weighed_within_its_standard_error(double hertz)
    {
        // Newton's second law: a bob x(t) = a sin(wt) adds the force m x''(t), whose mean over whole cycles is nothing.
        for (var cut = 0; cut < 12; cut++)
        {
            var n = 45 + cut * 3;
            double[] seconds = [.. Enumerable.Range(0, n).Select(i => i * 0.1)];
            double[] grams = [.. seconds.Select(t => 186.4 + 9 * Math.Sin(2 * Math.PI * hertz * t + cut))];
            var fit = ImpulseFit.Of(seconds, grams, 0.1);
            Assert.InRange(Math.Abs(fit.Grams - 186.4), 0, 3 * fit.StandardError);
            Assert.True(fit.StandardError < 9 / Math.Sqrt(2), "better than a single reading");
        }
    }

    [Fact]
    public void The_slope_of_a_line_is_that_of_least_squares()
    {
        // Readings 100 + 2t for 4 s at 10 Hz: the impulse is 100 t + t²; least squares of t² on t over 0..4 has the slope 4 (by hand: the mean of t² is fitted by 4t - 8/3).
        double[] seconds = [.. Enumerable.Range(0, 41).Select(i => i * 0.1)];
        double[] grams = [.. seconds.Select(t => 100 + 2 * t)];
        Assert.Equal(104, ImpulseFit.Of(seconds, grams, 0.1).Grams, 0.001);
    }

    [Fact]
    public void Three_readings_are_no_weight() => Assert.True(double.IsNaN(ImpulseFit.Of([0, 1, 2], [1, 1, 1], 0.1).Grams));
}
