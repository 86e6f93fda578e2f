using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

/// <summary>The course follows a chick that fails; what is said of it must not become quieter for that.</summary>
public sealed class LastingTests
{
    private const int Days = 20, Onset = 8, Age = 6;

    public static TheoryData<double> Losses => [0, 0.015, 0.03];

    [Theory]
    [MemberData(nameof(Losses))]
    public void A_chick_that_goes_on_failing_stays_red(double lost)
    {
        var told = Told((day, grams) => day < Onset ? grams : SimulatedCourse.Curve(Age + Onset - 1) * Math.Exp(-lost * (day - Onset + 1)));
        for (var day = Onset + 3; day < Days; day++)
        {
            var findings = told[day];
            Assert.Contains(findings, finding => finding.Severity == Severities.Red && finding.Kind is FindingKinds.Loss or FindingKinds.Stall);
        }
    }

    /// <summary>Where nobody knows how its kind grows, a stall may be the end of growth; three per cent a day less is no recession.</summary>
    [Fact]
    public void A_chick_of_a_kind_that_nobody_knows_stays_red_while_it_loses()
    {
        var told = Told((day, grams) => day < Onset ? grams : SimulatedCourse.Curve(Age + Onset - 1) * Math.Exp(-0.03 * (day - Onset + 1)), "Inventus novus");
        for (var day = Onset + 3; day < Days; day++)
            Assert.Contains(told[day], finding => finding.Severity == Severities.Red && finding.Kind is FindingKinds.Loss or FindingKinds.Stall);
    }

    /// <summary>The evidence shares what is missing with slower courses, of which an unknown kind has many; by its weights the chick stands still.</summary>
    [Fact]
    public void A_chick_of_a_kind_that_nobody_knows_that_stands_still_is_not_called_slow_for_long()
    {
        var at = SimulatedCourse.Curve(Age + Onset - 1);
        var told = Told((day, grams) => day < Onset ? grams : at, "Inventus novus");
        var named = told[(Onset + 3)..(Onset + 7)].SelectMany(each => each).Where(finding => finding.Kind is FindingKinds.Loss or FindingKinds.Stall or FindingKinds.Slow).ToList();
        Assert.NotEmpty(named);
        Assert.All(told[(Onset + 3)..], each => Assert.Contains(each, finding => finding.Severity == Severities.Red));
        Assert.DoesNotContain(named, finding => finding.Kind == FindingKinds.Slow);
    }

    /// <summary>Where a chick gains half of what it should, the course soon believes that it is a slow one.</summary>
    [Fact]
    public void Growth_that_goes_on_halved_is_told_again_and_again()
    {
        var told = Told((day, grams) => day < Onset ? grams : SimulatedCourse.Curve(Age + Onset - 1) * Math.Exp(0.5 * Math.Log(SimulatedCourse.Curve(Age + day) / SimulatedCourse.Curve(Age + Onset - 1))));
        for (var day = Onset + 6; day < Days; day++)
            Assert.Contains(told[(day - 2)..(day + 1)].SelectMany(each => each), finding => finding.Severity != Severities.Note);
    }

    [Fact]
    public void It_is_told_by_weights_that_a_keeper_can_check()
    {
        var at = SimulatedCourse.Curve(Age + Onset - 1);
        var text = Told((day, grams) => day < Onset ? grams : at)[^1].First(finding => finding.Severity == Severities.Red).Text;
        Assert.Contains("still has hardly gained over", text, StringComparison.Ordinal);
        Assert.Contains(FormattableString.Invariant($"{at:0.0} g then"), text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_chick_that_gains_again_is_let_alone()
    {
        // Two days without a gain, and from there on as fast as before.
        var told = Told((day, grams) => day < Onset ? grams : SimulatedCourse.Curve(Age + Math.Max(Onset - 1, day - 3)));
        Assert.Contains(told[Onset..(Onset + 3)].SelectMany(each => each), finding => finding.Severity != Severities.Note);
        Assert.DoesNotContain(told[(Onset + 5)..].SelectMany(each => each), finding => finding.Severity == Severities.Red);
    }

    // By day.
    private static List<List<GrowthFinding>> Told(Func<int, double, double> change, string species = SimulatedCourse.Species)
    {
        List<List<GrowthFinding>> told = [];
        RoomReview.Of([.. SimulatedCourse.Room(Days), SimulatedCourse.Chick("LB-0099", Age, Days, change) with { Species = species }], PublishedGrowth.Instance, SimulatedCourse.First.AddDays(Days - 1), Tuning.Usual,
            morning => told.Add([.. Agent.Thriving.Findings.Of(morning).Where(finding => finding.Chick == "LB-0099")]));
        return told;
    }
}
