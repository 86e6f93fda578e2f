using CaptureAgent.Agent.Feeding.Probes;
using CaptureAgent.Protocol.Probes;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding.Probes;

public sealed class ShownStepsTests
{
    private static decimal After(params decimal[] shown)
    {
        var steps = new ShownSteps();
        var step = 0m;
        foreach (var celsius in shown)
            step = steps.Take(new ProbeReading(celsius, 0.1m));
        return step;
    }

    [Fact]
    public void A_probe_that_goes_up_by_halves_counts_in_halves() => Assert.Equal(0.5m, After(22.5m, 24.0m, 25.5m, 27.0m, 28.0m, 29.5m));

    [Fact]
    public void One_tenth_is_enough_to_count_in_tenths() => Assert.Equal(0.1m, After(22.5m, 24.0m, 25.5m, 27.0m, 28.0m, 29.5m, 29.6m));

    [Fact]
    public void A_few_changes_say_nothing_and_a_still_probe_neither() => Assert.Equal(0.1m, After(22.5m, 22.5m, 22.5m, 22.5m, 22.5m, 22.5m, 23.0m, 24.0m));
}
