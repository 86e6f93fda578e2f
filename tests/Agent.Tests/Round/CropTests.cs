using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>Is the crop empty? The verdict on a weighing carries what speaks for it and against it.</summary>
public sealed class CropTests
{
    [Fact]
    public void A_weight_as_expected_is_accepted_and_carries_its_evidence()
    {
        var weighing = Morning(1.0).TheWeighing;
        Assert.Equal("accepted", weighing.Verdict);
        Assert.Equal("weight-and-clock", weighing.Crop!.Basis);
        Assert.InRange(weighing.Crop.FoodProbability, 0, 0.1);
        Assert.InRange((double)weighing.Crop.ExpectedGrams!, 0.985 * Grams(24), 1.015 * Grams(24));
    }

    [Fact]
    public void A_tenth_too_heavy_without_a_feed_on_record_is_after_feed_by_the_weight_alone_and_a_finding()
    {
        var scene = Morning(1.10);
        Assert.Equal(["after-feed"], scene.TheWeighing.Reasons);
        Assert.Contains("no feed is on record", scene.TheWeighing.Remedy, StringComparison.Ordinal);
        Assert.Contains("avian veterinarian", scene.TheWeighing.Remedy, StringComparison.Ordinal);
        Assert.True(scene.TheWeighing.Crop!.FoodProbability > 0.9);
        Assert.Equal(("too-good", "AM-0147"), Assert.Single(scene.Events.OfType<FindingEvent>().Select(finding => (finding.Finding, finding.Chick!))));
    }

    [Fact]
    public void The_keeper_who_has_looked_may_insist_with_the_reweigh_card()
    {
        var scene = Morning(1.10).Lift(8.2 + 1.1 * Grams(24)).Scan("!REWEIGH").Hold(1, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(1.1 * Grams(24));
        Assert.Equal("accepted", scene.Weighings[1].Verdict);
        Assert.Contains("at the keeper's word", scene.Events.OfType<FindingEvent>().Last().Text, StringComparison.Ordinal);
    }

    [Fact]
    public void In_the_first_week_the_same_excess_is_accepted_and_said_to_rest_on_the_clock()
    {
        var weighing = Morning(1.10, age: 6).TheWeighing;
        Assert.Equal("accepted", weighing.Verdict);
        Assert.Equal("feed-clock", weighing.Crop!.Basis);
        Assert.Contains("rests on the feed clock", weighing.Crop.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_crop_seen_full_is_a_red_finding_for_the_keeper_and_the_veterinarian()
    {
        var scene = new Scene().Scan("!CROP").Wait(1).Scan("AM-0147");
        Assert.Equal("AM-0147", Assert.Single(scene.Events.OfType<CropEvent>()).Chick);
        var finding = Assert.Single(scene.Events.OfType<FindingEvent>());
        Assert.Equal(("red", "AM-0147"), (finding.Severity, finding.Chick));
        Assert.Contains("avian veterinarian", finding.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_chick_whose_crop_was_seen_full_has_no_morning_weight()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Hold(6, 8.2).Scan("!CROP").Hold(6, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(186.4);
        Assert.Equal(["after-feed"], scene.TheWeighing.Reasons);
        Assert.Equal("keeper", scene.TheWeighing.Crop!.Basis);
    }

    [Fact]
    public void A_crop_card_without_a_chick_is_dropped_and_said_so() =>
        Assert.Equal("crop-dropped", Assert.Single(new Scene().Scan("!CROP").Wait(61).Events.OfType<AlertEvent>()).Alert);

    [Fact]
    public void The_fed_card_in_place_of_the_crop_card_drops_that()
    {
        var scene = new Scene().Scan("!CROP").Wait(2).Scan("!FED").Wait(2).Scan("AM-0147");
        Assert.Empty(scene.Events.OfType<CropEvent>());
        Assert.Single(scene.Events.OfType<FeedEvent>());
        Assert.Equal("crop-dropped", Assert.Single(scene.Events.OfType<AlertEvent>()).Alert);
    }

    // Logistic of Ara glaucogularis (fit to Switzer 2008): 845 g, 0.1276 a day, inflection at day 27.27.
    private static double Grams(int day) => 845 / (1 + Math.Exp(-0.1276 * (day - 27.27)));

    private static Scene Morning(double share, int age = 24)
    {
        var today = new DateOnly(2026, 3, 2);
        var rows = Enumerable.Range(1, age - 1).Select(day => new WeighingRow(
            Guid.NewGuid(), "AM-0147", null, "Etc/UTC", today.AddDays(day - age), (long)Math.Round(Grams(day) * 1000), null, null, Verdict.Accepted, [], null, null, Origin.Imported, "test", null));
        var grams = share * Grams(age);
        return new Scene(ledger: new Ledger([new Chick("AM-0147", null, today.AddDays(-age))], rows, []))
            .Towel().Scan("AM-0147").Chick(grams, noise: 0.002 * grams, seconds: 14);
    }
}
