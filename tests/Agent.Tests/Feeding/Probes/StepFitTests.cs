using CaptureAgent.Agent.Feeding.Probes;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding.Probes;

public sealed class StepFitTests
{
    private static StepFit Dip(double constant, double from, double to, double seconds, LagMemory? memory = null)
    {
        var fit = new StepFit(new StepPrior(from, 41 - from, 8, 0.04), memory ?? new LagMemory(), -0.4, 0);
        for (var t = 0.0; t <= seconds; t += 0.5)
            fit.Add(t, Math.Round(to - ((to - from) * Math.Exp(-(t + 0.2) / constant)), 1));
        return fit;
    }

    [Theory]
    [InlineData(2, 40)]
    [InlineData(5, 38)]
    [InlineData(8, 41.5)]
    [InlineData(12, 44)]
    public void Where_it_will_rest_is_known_long_before(double constant, double celsius)
    {
        var fit = Dip(constant, 24, celsius, Math.Max(1.8 * constant, 4));
        Assert.Equal(celsius, fit.Mean, 0.35);
        Assert.True(Math.Abs(fit.Mean - celsius) < 3 * fit.Deviation);
        Assert.Equal(constant, fit.ConstantSeconds, 0.15 * constant);
    }

    [Fact]
    public void Early_it_is_uncertain_and_says_so()
    {
        Assert.True(Dip(8, 24, 41.5, 2).Deviation > 1);
        Assert.True(Dip(8, 24, 41.5, 30).Deviation < 0.1);
    }

    [Fact]
    public void A_constant_once_learnt_makes_the_next_dip_quicker()
    {
        var memory = new LagMemory();
        memory.Learn(Dip(8, 24, 39, 45, memory));
        Assert.Equal(8, memory.ConstantSeconds!.Value, 0.2);
        Assert.True(Dip(8, 24, 41.5, 5, memory).Deviation < Dip(8, 24, 41.5, 5).Deviation);
    }

    [Theory]
    // Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1.
    [InlineData(0, 0.5)]
    [InlineData(1, 0.8413447461)]
    [InlineData(-1.96, 0.0249978951)]
    [InlineData(3, 0.9986501020)]
    public void The_normal_distribution_is_the_table_s(double x, double chance) => Assert.Equal(chance, Normal.Cumulative(x), 2e-7);
}
