using CaptureAgent.Agent.Feeding;
using CaptureAgent.Protocol.Probes;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding;

public sealed class ProbeWatchTests
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    [Fact]
    public void A_rising_probe_is_never_settled()
    {
        var watch = new ProbeWatch();
        for (var i = 0; i < 40; i++)
        {
            // First-order approach to 41 degrees with a time constant of 8 s.
            var celsius = Math.Round((decimal)(41 - 17 * Math.Exp(-i / 8.0)), 1);
            var seen = watch.Take(Start.AddSeconds(i), new ProbeReading(celsius, 0.1m));
            if (seen is { Settled: true })
                Assert.True(celsius >= 40.7m, $"settled at {celsius}");
        }
    }

    [Fact]
    public void A_probe_at_rest_is_settled_after_five_seconds()
    {
        var watch = new ProbeWatch();
        bool[] settled = [.. Enumerable.Range(0, 7).Select(i => watch.Take(Start.AddSeconds(i), new ProbeReading(39.8m, 0.1m))!.Value.Settled)];
        Assert.Equal([false, false, false, false, false, true, true], settled);
    }

    [Fact]
    public void Air_and_rinse_water_are_no_formula() => Assert.Null(new ProbeWatch().Take(Start, new ProbeReading(24.5m, 0.1m)));
}
