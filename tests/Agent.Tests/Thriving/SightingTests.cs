using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

/// <summary>What a keeper saw belongs to the morning, whatever the weights say.</summary>
public sealed class SightingTests
{
    private const int Days = 12;

    private static readonly DateOnly Today = SimulatedCourse.First.AddDays(Days - 1);

    public static TheoryData<string> Kinds => [.. ObservationKinds.All, ObservationKinds.CropFull];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void What_cannot_wait_is_red_in_its_own_words_and_the_rest_is_shown_only(string kind)
    {
        var summary = Judge(SimulatedCourse.Room(Days), Seen("LB-0003", kind));
        var reds = summary.Findings.Where(finding => finding.Severity == Severities.Red).ToList();
        if (kind == ObservationKinds.CropFull)
        {
            var red = Assert.Single(reds);
            Assert.Equal(("LB-0003", FindingKinds.TooGood), (red.Chick, red.Kind));
            Assert.Contains(FormattableString.Invariant($"crop seen full when it should be empty. Today's weight of {red.Grams:0.0} g may be food"), red.Text, StringComparison.Ordinal);
        }
        else if (ObservationKinds.Urgent(kind) is { } urgent)
        {
            var red = Assert.Single(reds);
            Assert.Equal(("LB-0003", FindingKinds.Observation, $"LB-0003: {urgent}"), (red.Chick, red.Kind, red.Text));
        }
        else
        {
            Assert.Empty(reds);
        }

        Assert.Equal([kind], summary.SeenOf("LB-0003"));
        Assert.Empty(summary.SeenOf("LB-0004"));
    }

    [Fact]
    public void A_chick_that_is_not_weighed_yet_is_red_with_what_was_expected_of_it()
    {
        var summary = Judge([.. SimulatedCourse.Room(Days).Skip(1), SimulatedCourse.Chick("LB-0001", 6, Days - 1)], Seen("LB-0001", ObservationKinds.CropFull));
        Assert.Equal(["LB-0001"], summary.NotWeighed);
        var red = Assert.Single(summary.Findings, finding => finding.Severity == Severities.Red);
        Assert.Null(red.Grams);
        Assert.True(red.LowGrams < red.ExpectedGrams && red.ExpectedGrams < red.HighGrams);
        Assert.DoesNotContain("Today's weight", red.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_chick_without_any_weight_is_red_too()
    {
        var summary = Judge([new WatchedChick("AM-0147", null, null, null, null, [])], Seen("AM-0147", ObservationKinds.Listless));
        Assert.Equal("AM-0147", Assert.Single(summary.Findings, finding => finding.Severity == Severities.Red).Chick);
    }

    [Fact]
    public void The_same_seen_twice_is_told_once()
    {
        var summary = Judge(SimulatedCourse.Room(Days), Seen("LB-0003", ObservationKinds.Listless), Seen("LB-0003", ObservationKinds.Listless), Seen("LB-0003", ObservationKinds.RingOnToe));
        Assert.Equal(2, summary.Findings.Count(finding => finding.Severity == Severities.Red));
        Assert.Equal([ObservationKinds.Listless, ObservationKinds.RingOnToe], summary.SeenOf("LB-0003"));
    }

    [Fact]
    public void What_could_not_wait_yesterday_evening_is_asked_about_the_next_morning()
    {
        var evening = new DateTimeOffset(Today.AddDays(-1), new TimeOnly(22, 0), TimeSpan.Zero);
        var summary = Judge(
            SimulatedCourse.Room(Days), new Sighting("LB-0003", evening, Today.AddDays(-1), ObservationKinds.Listless), new Sighting("LB-0003", evening, Today.AddDays(-1), "active"),
            new Sighting("LB-0004", evening, Today.AddDays(-1), ObservationKinds.CropFull), new Sighting("LB-0005", evening, Today.AddDays(-1), ObservationKinds.Listless), Seen("LB-0005", ObservationKinds.Listless));
        Assert.Equal(["LB-0003", "LB-0004"], summary.Findings.Where(finding => finding.Severity == Severities.Look).Select(finding => finding.Chick));
        Assert.Equal("LB-0005", Assert.Single(summary.Findings, finding => finding.Severity == Severities.Red).Chick);
        Assert.Contains("seen yesterday", summary.Findings.First(finding => finding.Chick == "LB-0003").Text, StringComparison.Ordinal);
        Assert.Empty(summary.SeenOf("LB-0003"));
    }

    [Fact]
    public void A_code_that_no_chick_of_the_room_has_is_named()
    {
        var summary = Judge(SimulatedCourse.Room(Days), Seen("ZZ-9999", ObservationKinds.Listless), Seen("ZZ-0001", "active"), Seen("LB-0003", "active"));
        Assert.Equal(["ZZ-0001", "ZZ-9999"], summary.SeenElsewhere());
        Assert.Equal("ZZ-9999", Assert.Single(summary.Findings, finding => finding.Severity == Severities.Red).Chick);
    }

    [Fact]
    public void Reds_of_weights_and_of_what_was_seen_stand_together_before_all_else()
    {
        List<WatchedChick> room =
        [
            .. SimulatedCourse.Room(Days).Skip(2), SimulatedCourse.Chick("LB-0001", 6, Days - 4),
            SimulatedCourse.Chick("LB-0002", 7, Days, (day, grams) => day < Days - 2 ? grams : Math.Pow(0.96, day - (Days - 3)) * SimulatedCourse.Curve(7 + Days - 3)),
        ];
        var findings = Judge(room, Seen("LB-0009", ObservationKinds.Listless)).Findings;
        Assert.Equal(["LB-0002", "LB-0009"], findings.Take(2).Select(finding => finding.Chick));
        Assert.All(findings.Take(2), finding => Assert.Equal(Severities.Red, finding.Severity));
        Assert.All(findings.Skip(2), finding => Assert.NotEqual(Severities.Red, finding.Severity));
        Assert.Contains(findings, finding => finding.Severity == Severities.Look);
    }

    private static MorningSummary Judge(IReadOnlyList<WatchedChick> room, params Sighting[] seen) => MorningSummary.Of(room, PublishedGrowth.Instance, Today, seen);

    private static Sighting Seen(string chick, string kind) => new(chick, new DateTimeOffset(Today, new TimeOnly(6, 0), TimeSpan.Zero), Today, kind);
}
