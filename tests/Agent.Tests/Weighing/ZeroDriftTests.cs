using CaptureAgent.Agent.Tests.Support;
using CaptureAgent.Agent.Weighing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Weighing;

/// <summary>The drift term of the uncertainty.</summary>
public sealed class ZeroDriftTests
{
    [Fact]
    public void The_rate_is_the_root_mean_square_of_what_the_tares_showed()
    {
        var drift = new ZeroDrift();
        Assert.Equal(0.1 * 0.1 / 60, drift.PerSecond(0.1), 1e-9);
        for (var i = 0; i < 40; i++)
            drift.Learn(Compared(i % 2 == 0 ? 0.4 : -0.4, 20, 0));
        Assert.Equal(0.02 * Math.Sqrt(16.0 / 20), drift.PerSecond(0.1), 1e-4);
    }

    [Fact]
    public void What_reading_two_tares_is_uncertain_by_is_no_drift()
    {
        var (drift, random) = (new ZeroDrift(), new Random(4));
        for (var i = 0; i < 16; i++)
            drift.Learn(Compared(0.05 * random.NextNormal(), 20, 0.05));
        Assert.InRange(drift.PerSecond(0.1), 0, 0.002);
    }

    [Fact]
    public void Parts_of_the_budget_add_in_squares()
    {
        var budget = new UncertaintyBudget(0.05, 0.029, 0.03, 0.02, UncertaintyBudget.OfScale(0.1));
        Assert.Equal(Math.Sqrt(0.0025 + 0.000841 + 0.0009 + 0.0004 + 0.01 / 3), budget.Combined, 1e-9);
        Assert.True(budget.Combined > (budget with { Drift = 0 }).Combined);
    }

    private static TareComparison Compared(double change, double seconds, double uncertainty) =>
        new(new Rest(0, 8.2, 0.03, true), new Rest(seconds, 8.2 + change, 0.03, true), seconds / 2, uncertainty);
}
