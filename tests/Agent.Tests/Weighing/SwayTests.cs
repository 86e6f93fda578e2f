using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>The level about which a liner sways.</summary>
public sealed class SwayTests
{
    private const double Noise = 0.036;

    [Theory]
    [InlineData(0.2, 7)]
    [InlineData(0.3, 5)]
    [InlineData(0.5, 3)]
    [InlineData(1.3, 6)]
    public void The_middle_of_a_slow_sway_is_found_within_its_uncertainty(double hertz, double seconds)
    {
        var squares = 0.0;
        const int Phases = 24;
        for (var phase = 0; phase < Phases; phase++)
        {
            var sway = new Sway();
            Assert.True(sway.TryFit(Readings(seconds, t => 0.4 * Math.Sin(2 * Math.PI * (hertz * t + phase / (double)Phases))), 7, 0, double.NegativeInfinity, Noise));
            var off = Math.Abs(sway.Level - 140);
            Assert.InRange(off, 0, 0.15);
            Assert.InRange(sway.Amplitude, 0.3, 0.55);
            squares += off / sway.Error * (off / sway.Error);
        }

        Assert.InRange(Math.Sqrt(squares / Phases), 0, 1.5);
    }

    [Fact]
    public void Still_readings_a_step_and_an_animal_are_no_sway()
    {
        var random = new Random(2);
        Assert.False(new Sway().TryFit(Readings(6, _ => 0), 7, 0, double.NegativeInfinity, Noise));
        Assert.False(new Sway().TryFit(Readings(6, t => t < 3 ? 0 : 0.4), 7, 0, double.NegativeInfinity, Noise));
        Assert.False(new Sway().TryFit(Readings(3, t => t < 1 ? 0 : 0.4 * (1 - Math.Exp(-(t - 1) / 0.4))), 7, 0, double.NegativeInfinity, Noise));
        Assert.False(new Sway().TryFit(Readings(6, _ => 0.3 * (random.NextDouble() - 0.5) * 4), 7, 0, double.NegativeInfinity, Noise));
        Assert.False(new Sway().TryFit(Readings(6, t => (t % 2.4 < 1.1 ? 0.5 : 0.05) * Math.Sin(2 * Math.PI * 1.3 * t)), 7, 0, double.NegativeInfinity, Noise));
    }

    // A tub of 140 g on a scale of 0.1 g, ten readings a second.
    private static Recent Readings(double seconds, Func<double, double> sway)
    {
        var recent = new Recent();
        for (var i = 0; i <= seconds * 10; i++)
            recent.Add(i / 10.0, Math.Round((140 + sway(i / 10.0)) * 10) / 10);
        return recent;
    }
}
