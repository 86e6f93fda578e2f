using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>The weight of what moves: the slope of the impulse over time.</summary>
public sealed class ImpulseLineTests
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
            var line = Line(45 + cut * 3, t => 186.4 + 9 * Math.Sin(2 * Math.PI * hertz * t + cut));
            Assert.InRange(Math.Abs(line.Grams - 186.4), 0, 3 * line.MotionError);
            Assert.True(line.MotionError < 9 / Math.Sqrt(2), "better than a single reading");
        }
    }

    [Fact]
    public void The_slope_of_a_line_is_that_of_least_squares()
    {
        // Readings 100 + 2t for 4 s at 10 Hz: the impulse is 100 t + t²; least squares of t² on t over 0..4 has the slope 4 (by hand: the mean of t² is fitted by 4t - 8/3).
        Assert.Equal(104, Line(41, t => 100 + 2 * t).Grams, 0.001);
    }

    [Fact]
    public void The_tail_of_a_first_order_filter_is_weighed_too()
    {
        // y = W(1 - exp(-t/D)) behind a stage of time constant D (any text on first-order systems): I + D·y = W·t.
        var line = Line(31, t => 186.4 * (1 - 0.4 * Math.Exp(-t / 0.5)), delay: 0.5);
        Assert.Equal(186.4, line.Grams, 0.05);
        Assert.NotEqual(186.4, Line(31, t => 186.4 * (1 - 0.4 * Math.Exp(-t / 0.5))).Grams, 1.0);
    }

    [Fact]
    public void White_noise_makes_the_error_that_the_root_of_the_number_says()
    {
        // sigma·sqrt(6/5)/sqrt(n) for the slope of a random walk through n steps (an integral of x(1-x)), where readings are slow.
        var random = new Random(5);
        double squares = 0, stated = 0;
        for (var run = 0; run < 400; run++)
        {
            var line = Line(41, _ => 100 + random.NextNormal(), 0.5);
            squares += (line.Grams - 100) * (line.Grams - 100);
            stated += line.MotionError * line.MotionError;
        }

        Assert.Equal(Math.Sqrt(1.2 / 40), Math.Sqrt(squares / 400), 0.02);
        Assert.InRange(Math.Sqrt(stated / squares), 0.8, 1.2);
    }

    [Fact]
    public void What_was_left_out_takes_no_time()
    {
        var series = new ImpulseSeries();
        for (var i = 0; i < 20; i++)
            series.Add(i * 0.1, 186, resumed: false);
        for (var i = 0; i < 20; i++)
            series.Add(5 + i * 0.1, 188, resumed: i == 0);
        Assert.Equal(3.9, series.TimeOf(39), 1e-9);
        Assert.Equal(187, series.Line(0, 40, 0).Mean, 0.05);
    }

    private static ImpulseLine Line(int count, Func<double, double> grams, double interval = 0.1, double delay = 0)
    {
        var series = new ImpulseSeries();
        for (var i = 0; i < count; i++)
            series.Add(i * interval, grams(i * interval), resumed: false);
        return series.Line(0, count, delay);
    }
}
