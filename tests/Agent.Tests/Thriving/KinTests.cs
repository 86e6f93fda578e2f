using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

/// <summary>What the nursery's own chicks of a species say of the next one.</summary>
public sealed class KinTests
{
    private const int Days = 30;

    [Fact]
    public void A_course_that_the_others_took_becomes_likelier_and_the_rest_less()
    {
        var kin = new Kin([0.5, 0.25, 0.25]);
        kin.Add([(1, 1.0)]);
        kin.Add([(1, 0.8), (2, 0.2)]);
        Assert.True(kin.Factor(1, null) > 1);
        Assert.True(kin.Factor(0, null) < 1);
        // The factors leave a distribution a distribution.
        Assert.Equal(1, 0.5 * kin.Factor(0, null) + 0.25 * kin.Factor(1, null) + 0.25 * kin.Factor(2, null), 1e-12);
    }

    [Fact]
    public void A_chick_does_not_hear_itself()
    {
        var alone = new Kin([0.5, 0.5]);
        alone.Add([(1, 1.0)]);
        Assert.Equal(1, alone.Factor(1, 1.0), 1e-12);
        Assert.Equal(1, alone.Factor(0, 0.0), 1e-12);
    }

    [Fact]
    public void A_young_chick_among_slow_ones_is_foretold_more_slowly_than_the_published_curve_has_it()
    {
        // The nursery's chicks grow a fifth more slowly than the published ones.
        var alone = Foretold([Chick("LB-0050", 5, 2)]);
        var amongSlow = Foretold([.. Enumerable.Range(0, 6).Select(i => Chick(SimulatedCourse.Code(i), 8 + i, Days)), Chick("LB-0050", 5, 2)]);
        var truth = Math.Log(SlowGrams(5 + 2));
        Assert.True(Math.Abs(amongSlow - truth) < Math.Abs(alone - truth), $"{amongSlow:0.0000} and {alone:0.0000} for {truth:0.0000}");
    }

    private static double Foretold(IReadOnlyList<WatchedChick> chicks) =>
        Math.Log(MorningSummary.Of(chicks, PublishedGrowth.Instance, SimulatedCourse.First.AddDays(Days)).Chicks.Single(chick => chick.Chick == "LB-0050").ExpectedGrams!.Value);

    private static double SlowGrams(double age) => Math.Exp(Interpolated(0.8 * age));

    private static double Interpolated(double age)
    {
        var day = (int)age;
        return (1 - age + day) * Math.Log(SimulatedCourse.Curve(day)) + (age - day) * Math.Log(SimulatedCourse.Curve(day + 1));
    }

    /// <param name="age">On its first day; its last weight is of the day before the summary.</param>
    private static WatchedChick Chick(string code, int age, int days)
    {
        var first = SimulatedCourse.First.AddDays(Days - days);
        return new WatchedChick(code, SimulatedCourse.Species, first.AddDays(-age), null, null,
            [.. Enumerable.Range(0, days).Select(day => new MorningWeight(first.AddDays(day), (decimal)SlowGrams(age + day), null, null))]);
    }
}
