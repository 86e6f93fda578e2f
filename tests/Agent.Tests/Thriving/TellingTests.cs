using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

/// <summary>What was told is told again when there is more of it, or when it goes on; not every morning.</summary>
public sealed class TellingTests
{
    private static readonly Telling Told = At(0, Severities.Look, 2);

    /// <summary>Days of age: at the last growth has all but ended, at the first the chick still gains 2 % a day.</summary>
    public static TheoryData<int> PeakAges => [24, 26, 28, 30, 32];

    [Fact]
    public void The_first_is_news() => Assert.True(Told.IsNews(null));

    [Fact]
    public void The_same_evidence_the_next_morning_is_none() => Assert.False(At(1, Severities.Look, 2.5).IsNews(Told));

    [Fact]
    public void Evidence_that_has_grown_is_news() => Assert.True(At(1, Severities.Look, 3.5).IsNews(Told));

    [Fact]
    public void What_goes_on_for_days_is_told_again() => Assert.True(At(4, Severities.Look, 2).IsNews(Told));

    [Fact]
    public void What_cannot_wait_any_more_is_news() => Assert.True(At(1, Severities.Red, 2.5).IsNews(Told));

    [Fact]
    public void A_red_that_does_not_grow_does_not_stand() => Assert.False(At(2, Severities.Red, 4.5).IsNews(At(0, Severities.Red, 4)));

    [Fact]
    public void A_deep_loss_is_told_again_when_it_is_deeper()
    {
        var told = new Telling(SimulatedCourse.First, Severities.Look, 0, 0.23);
        Assert.False((told with { Day = told.Day.AddDays(9), Lost = 0.25 }).IsNews(told));
        Assert.True((told with { Day = told.Day.AddDays(9), Lost = 0.27 }).IsNews(told));
    }

    /// <summary>Two days without a gain, and on the third it is where it should be.</summary>
    [Fact]
    public void A_chick_that_has_caught_up_is_no_look_and_no_red()
    {
        const int Days = 16;
        var healthy = SimulatedCourse.Chick("LB-0099", 6, Days, (_, grams) => grams);
        var before = (double)healthy.Weights[Days - 4].Grams;
        var chick = SimulatedCourse.Chick("LB-0099", 6, Days, (day, grams) => day is Days - 3 or Days - 2 ? before : grams * 1.04);
        MorningReview? last = null;
        RoomReview.Of([chick], PublishedGrowth.Instance, SimulatedCourse.First.AddDays(Days - 1), Tuning.Usual, morning => last = morning);
        Assert.Equal(SimulatedCourse.First.AddDays(Days - 1), last!.Day);
        Assert.DoesNotContain(Agent.Thriving.Findings.Of(last), finding => finding.Kind is FindingKinds.Loss or FindingKinds.Stall or FindingKinds.Slow && finding.Severity != Severities.Note);
    }

    [Fact]
    public void A_chick_that_is_light_after_weaning_is_not_told_every_morning()
    {
        // From day 40 of age on 0.8 % less a day, down to a quarter below the peak, and then it keeps that.
        const int Days = 80;
        var chick = SimulatedCourse.Chick("LB-0099", 8, Days, (day, grams) => grams * Math.Exp(-0.008 * Math.Clamp(8 + day - 40, 0, 36)));
        List<GrowthFinding> told = [];
        RoomReview.Of([chick], PublishedGrowth.Instance, SimulatedCourse.First.AddDays(Days - 1), Tuning.Usual,
            morning => told.AddRange(Agent.Thriving.Findings.Of(morning).Where(finding => finding.Severity != Severities.Note)));
        Assert.True(told.Count is 1 or 2, string.Join("\n", told));
        Assert.All(told, finding => Assert.Equal((FindingKinds.WeaningLoss, Severities.Look), (finding.Kind, finding.Severity)));
    }

    [Theory]
    [MemberData(nameof(PeakAges))]
    public void A_recession_that_begins_before_the_course_has_it_is_never_red(int peakAge)
    {
        var redDays = RedDays(peakAge, 0.008);
        Assert.True(redDays.Count == 0, string.Join(" ", redDays));
    }

    [Theory]
    [MemberData(nameof(PeakAges))]
    public void A_loss_that_no_recession_explains_is_red_all_the_same(int peakAge) => Assert.NotEmpty(RedDays(peakAge, 0.06));

    private static List<int> RedDays(int peakAge, double lost)
    {
        const int Days = 30;
        List<int> red = [];
        var chicks = SimulatedCourse.Room(Days);
        chicks.Add(SimulatedCourse.Chick("LB-0098", 10, Days, (day, grams) =>
            grams * SimulatedCourse.Curve(Math.Min(10 + day, peakAge)) / SimulatedCourse.Curve(10 + day) * Math.Exp(-lost * Math.Clamp(10 + day - peakAge, 0, 12))));
        RoomReview.Of(chicks, PublishedGrowth.Instance, SimulatedCourse.First.AddDays(Days - 1), Tuning.Usual,
            morning => red.AddRange(Agent.Thriving.Findings.Of(morning).Where(finding => finding.Chick == "LB-0098" && finding.Severity == Severities.Red).Select(_ => morning.Day.DayNumber - SimulatedCourse.First.DayNumber + 10)));
        return red;
    }

    private static Telling At(int day, string severity, double ratio) => new(SimulatedCourse.First.AddDays(day), severity, ratio, 0);
}
