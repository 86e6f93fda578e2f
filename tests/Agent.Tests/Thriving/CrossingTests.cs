using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Thriving;

public sealed class CrossingTests
{
    private const int Days = 26;

    [Fact]
    public void A_chick_that_drifts_down_through_the_nursery_s_own_chicks_is_told_with_its_centiles()
    {
        var told = Assert.Single(Findings([.. Others(8), Slow()]), finding => finding.Kind == FindingKinds.Crossing);
        Assert.Equal("LB-0099", told.Chick);
        Assert.Matches(@"this nursery's own 8 other chicks of its species: from the \d+(st|nd|rd|th) to the \d+(st|nd|rd|th) in \d+ days", told.Text);
        Assert.Contains("?", told.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Among_fewer_than_five_others_there_are_no_centiles() =>
        Assert.DoesNotContain(Findings([.. Others(4), Slow()]), finding => finding.Kind == FindingKinds.Crossing);

    [Fact]
    public void Chicks_of_another_species_are_no_measure() =>
        Assert.DoesNotContain(
            Findings([.. Others(8).Select(chick => chick with { Species = "Cockatiel" }), Slow()]), finding => finding.Kind == FindingKinds.Crossing);

    [Fact]
    public void A_chick_that_keeps_its_place_is_not_told_however_small_it_is() =>
        Assert.DoesNotContain(
            Findings([.. Others(8), SimulatedCourse.Chick("LB-0099", 5, Days, (_, grams) => 0.8 * grams)]), finding => finding.Kind == FindingKinds.Crossing);

    [Fact]
    public void One_that_falls_faster_is_to_be_looked_at_and_not_every_morning()
    {
        var severities = new List<string>();
        for (var days = 9; days <= Days; days++)
            severities.AddRange(Findings([.. Others(8), Slow(0.4)], days).Where(finding => finding.Kind == FindingKinds.Crossing && finding.Chick == "LB-0099").Select(finding => finding.Severity));
        Assert.Contains(Severities.Look, severities);
        Assert.InRange(severities.Count(severity => severity == Severities.Look), 1, 2);
        Assert.DoesNotContain((Severities.Look, Severities.Look), severities.Zip(severities.Skip(1)));
    }

    // Eight hatched a week earlier, so that they were weighed at every age that the slow one has reached.
    private static IEnumerable<WatchedChick> Others(int count) => Enumerable.Range(0, count).Select(i =>
        SimulatedCourse.Chick(SimulatedCourse.Code(i), 7, Days, (_, grams) => grams * (0.93 + 0.02 * i)));

    // Gains a seventh less than the others, every day of the last three weeks.
    private static WatchedChick Slow(double less = 0.15) => SimulatedCourse.Chick(
        "LB-0099", 5, Days, (day, grams) => grams * Math.Pow(SimulatedCourse.Curve(5 + Math.Max(day, 4)) / SimulatedCourse.Curve(9), -less));

    private static List<GrowthFinding> Findings(IReadOnlyList<WatchedChick> chicks, int days = Days)
    {
        List<GrowthFinding> found = [];
        RoomReview.Of(chicks, PublishedGrowth.Instance, SimulatedCourse.First.AddDays(days - 1), Tuning.Usual, morning => found = [.. Agent.Thriving.Findings.Of(morning)]);
        return found;
    }
}
