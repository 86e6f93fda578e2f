using CaptureAgent.Simulators.Physics.Probes;
using Xunit;

namespace CaptureAgent.Simulators.Tests.Physics;

public sealed class ProbeTests
{
    [Fact]
    public void Bowl_cools_as_Newton_says()
    {
        var bowl = new Bowl(41, 24, 0.02);
        Assert.Equal(24 + (17 * Math.Exp(-0.02 * 10)), bowl.CelsiusAt(600), 9);
        Assert.Equal(41, bowl.CelsiusAt(0), 9);
    }

    [Fact]
    public void Dipped_probe_rises_with_its_lag()
    {
        var probe = new LaggingProbe(new(40, 24, 0), 1) { LagSeconds = 8, NoiseCelsius = 0 };
        probe.Dip();
        foreach (var seconds in (double[])[2, 8, 16, 40])
        {
            probe.ReadAt(seconds);
            Assert.Equal(40 - (16 * Math.Exp(-seconds / 8)), probe.TipCelsius, 6);
        }
    }

    [Fact]
    public void Shown_value_has_its_resolution_and_falls_slowly_in_air()
    {
        var probe = new LaggingProbe(new(40), 2) { ResolutionCelsius = 0.5m };
        probe.Dip();
        Assert.Equal(0, probe.ReadAt(30) % 0.5m);
        var before = probe.TipCelsius;
        probe.TakeOut();
        probe.ReadAt(34);
        Assert.InRange(before - probe.TipCelsius, 1, 3);
    }
}
