using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>Force and momentum of what lies there, beyond what rounding and the scale make.</summary>
public sealed class MotionTests
{
    [Theory]
    [InlineData(0.7)]
    [InlineData(1.5)]
    public void A_stride_s_momentum_is_its_force_over_its_frequency(double hertz)
    {
        // F = A·sin(2πft): its deviation is A/√2, that of its integral A/(2πf·√2).
        var series = new ImpulseSeries();
        for (var i = 0; i <= 200; i++)
            series.Add(i * 0.05, 200 + 2 * Math.Sin(2 * Math.PI * hertz * i * 0.05), resumed: false);
        var motion = Motion.Of(series.Line(0, series.Count, 0), 0, 0.01, 0);
        Assert.Equal(2 / Math.Sqrt(2), motion.Force, 0.06);
        Assert.Equal(2 / Math.Sqrt(2) / (2 * Math.PI * hertz), motion.Momentum, 0.02);
    }

    [Fact]
    public void What_the_scale_makes_at_rest_is_no_motion()
    {
        // Over many stretches of white readings the noise taken off is what there was, so that what is left is small beside it.
        var random = new Random(5);
        double force = 0, momentum = 0;
        for (var run = 0; run < 200; run++)
        {
            var series = new ImpulseSeries();
            for (var i = 0; i < 40; i++)
                series.Add(i * 0.1, 100 + 0.2 * random.NextNormal(), resumed: false);
            var motion = Motion.Of(series.Line(0, series.Count, 0.1), 0.1, 0.01, 0.2);
            force += motion.Force / motion.ForceNoise / 200;
            momentum += motion.Momentum / motion.MomentumNoise / 200;
        }

        Assert.InRange(force, 1.0 / 3, 0.5);
        Assert.InRange(momentum, 1.0 / 3, 0.7);
    }
}
