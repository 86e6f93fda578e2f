using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

/// <summary>A weaned chick should keep its weight; one that is fed by hand is not weaned; and a card does not make a nestling a weaned bird.</summary>
public sealed class WeanedTests
{
    private const string Code = "LB-0099";

    private const int Age = 8, Peak = 40, Kept = 75, Days = 100;

    [Fact]
    public void One_that_keeps_its_weight_is_let_alone()
    {
        var told = Told(Course(0));
        Assert.Equal(Stage.Weaned, told[^1].Stage);
        Assert.DoesNotContain(told.SelectMany(each => each.Findings), finding => finding.Severity != Severities.Note);
    }

    [Theory]
    [InlineData(0.008)]
    [InlineData(0.012)]
    public void One_that_loses_again_is_looked_at_before_it_has_lost_a_twelfth_and_is_red_before_an_eighth(double lost)
    {
        var told = Told(Course(lost));
        Assert.Contains(told[..(FirstDayWith(lost, 1 / 12.0) + 1)], each => each.Findings.Any(finding => finding.Severity == Severities.Look));
        var red = told[..(FirstDayWith(lost, 1 / 8.0) + 1)].SelectMany(each => each.Findings).First(finding => finding.Severity == Severities.Red);
        Assert.Equal(FindingKinds.Loss, red.Kind);
        Assert.Contains("since it was weaned", red.Text, StringComparison.Ordinal);
        Assert.All(told[(FirstDayWith(lost, 1 / 8.0) + 1)..], each => Assert.Contains(each.Findings, finding => finding.Severity == Severities.Red));
    }

    [Fact]
    public void One_that_is_fed_by_hand_is_not_weaned()
    {
        var chick = Course(0) with { LastFed = SimulatedCourse.First.AddDays(Days - 1) };
        Assert.Equal(Stage.Weaning, Told(chick)[^1].Stage);
    }

    [Fact]
    public void A_loss_beyond_the_usual_is_not_called_usual_the_next_morning()
    {
        // From the peak on 2.5 % a day.
        var chick = SimulatedCourse.Chick(Code, Age, Days, (day, grams) => grams * Math.Exp(-0.025 * Math.Clamp(Age + day - Peak, 0, 10)));
        var told = Told(chick);
        var first = told.FindIndex(each => each.Findings.Any(finding => finding.Severity != Severities.Note));
        Assert.InRange(first, Peak - Age, Peak - Age + 10);
        for (var day = first + 1; day <= Peak - Age + 10; day++)
            Assert.DoesNotContain(told[day].Findings, finding => finding.Text.Contains("as is usual", StringComparison.Ordinal));
    }

    [Fact]
    public void The_card_does_not_wean_a_nestling()
    {
        // 8 days old, at a quarter of its final weight; it stops gaining five days later.
        var at = SimulatedCourse.Curve(Age + 8);
        var chick = SimulatedCourse.Chick(Code, Age, 14, (day, grams) => day > 8 ? at : grams, weaning: SimulatedCourse.First.AddDays(3));
        var told = Told(chick, 14);
        Assert.All(told, each => Assert.Equal(Stage.Growing, each.Stage));
        var asked = Assert.Single(told[3].Findings, finding => finding.Kind == FindingKinds.WeaningDue);
        Assert.Equal(Severities.Look, asked.Severity);
        Assert.Contains("take it back", asked.Text, StringComparison.Ordinal);
        Assert.DoesNotContain(told[2].Findings, finding => finding.Kind == FindingKinds.WeaningDue);
        Assert.Contains(told[13].Findings, finding => finding.Severity == Severities.Red);
    }

    [Fact]
    public void The_card_is_believed_once_the_chick_is_near_its_peak()
    {
        var chick = SimulatedCourse.Chick(Code, Age, 40, weaning: SimulatedCourse.First.AddDays(3));
        Assert.Contains(Told(chick, 40), each => each.Stage == Stage.Weaning);
    }

    // Grows, loses 12 % from the peak in 15 days, keeps that to day 75 of age, and loses again by so much a day.
    private static WatchedChick Course(double lost) => SimulatedCourse.Chick(Code, Age, Days, (day, grams) =>
        grams * Math.Exp(-0.008 * Math.Clamp(Age + day - Peak, 0, 15) - lost * Math.Max(0, Age + day - Kept)));

    private static int FirstDayWith(double lost, double part) => Kept - Age + (int)Math.Ceiling(-Math.Log(1 - part) / lost);

    // By day.
    private static List<(Stage Stage, List<GrowthFinding> Findings)> Told(WatchedChick chick, int days = Days)
    {
        List<(Stage, List<GrowthFinding>)> told = [];
        RoomReview.Of([.. SimulatedCourse.Room(days), chick], PublishedGrowth.Instance, SimulatedCourse.First.AddDays(days - 1), Tuning.Usual,
            morning => told.Add((morning.Watches[^1].Stage, [.. Agent.Thriving.Findings.Of(morning).Where(finding => finding.Chick == Code)])));
        return told;
    }
}
