using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Thriving;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

public sealed class ObservationTests
{
    [Fact]
    public void A_card_after_a_code_is_about_that_chick_and_the_code_goes_on_waiting_for_its_load()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Hold(1, 8.2).Scan("!ACTIVE").Chick(186.4);
        var seen = Assert.Single(scene.Events.OfType<ObservationEvent>());
        Assert.Equal(("AM-0147", "active"), (seen.Chick, seen.Observation));
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
    }

    [Fact]
    public void A_card_before_a_code_is_about_the_next_chick_and_names_no_load()
    {
        var scene = new Scene().Hold(2, 0).Scan("!EATS-ALONE").Hold(2, 0).Scan("GR-0096");
        Assert.Equal("GR-0096", Assert.Single(scene.Events.OfType<ObservationEvent>()).Chick);
        Assert.Equal("observed", scene.Events.OfType<ScanEvent>().Last().Taken);
    }

    [Fact]
    public void A_card_without_a_code_is_dropped_and_said_so()
    {
        var scene = new Scene().Hold(2, 0).Scan("!FLAPPING").Hold(62, 0);
        Assert.Empty(scene.Events.OfType<ObservationEvent>());
        Assert.Contains(scene.Events.OfType<AlertEvent>(), alert => alert.Alert == "observation-dropped");
    }

    [Theory]
    [InlineData("!CROP-NOT-DOWN")]
    [InlineData("!CROP-BLISTERED")]
    [InlineData("!PLAQUE-IN-MOUTH")]
    [InlineData("!LIES-ON-BACK")]
    [InlineData("!LISTLESS")]
    public void What_cannot_wait_is_answered_with_the_veterinarian(string card)
    {
        var scene = new Scene().Hold(2, 0).Scan("GR-0096").Hold(1, 0).Scan(card);
        var urgent = Assert.Single(scene.Events.OfType<AlertEvent>(), alert => alert.Alert == "observation-urgent");
        Assert.Equal("GR-0096", urgent.Chick);
        Assert.Contains("avian veterinarian, today", urgent.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_weaning_card_is_an_observation_too()
    {
        var scene = new Scene().Hold(2, 0).Scan("GR-0096").Hold(1, 0).Scan("!WEANING");
        Assert.Equal(ObservationKinds.Weaning, Assert.Single(scene.Events.OfType<ObservationEvent>()).Observation);
    }

    /// <summary>Scanned for the wrong chick the card would end the watch over one that has yet to grow.</summary>
    [Theory]
    [InlineData("AM-0147", true)]
    [InlineData("CN-0321", false)]
    public void The_weaning_card_is_asked_about_where_the_chick_should_still_grow(string code, bool isAsked)
    {
        var ledger = Scene.Nursery(
            ("AM-0147", "2026-02-24", 131m), ("AM-0147", "2026-02-25", 141m), ("AM-0147", "2026-02-26", 149m), ("AM-0147", "2026-02-27", 158m), ("AM-0147", "2026-02-28", 168m));
        var alerts = new Scene(ledger: ledger).Hold(2, 0).Scan(code).Hold(1, 0).Scan("!WEANING").Events.OfType<AlertEvent>().Where(alert => alert.Alert == "weaning-early").ToList();
        Assert.Equal(isAsked ? [code] : [], alerts.Select(alert => alert.Chick));
        Assert.All(alerts, alert => Assert.Contains("take it back", alert.Text, StringComparison.Ordinal));
    }

    [Fact]
    public void A_loss_is_told_at_the_weighing()
    {
        var ledger = Scene.Nursery(
            ("AM-0147", "2026-02-22", 116m), ("AM-0147", "2026-02-23", 123m), ("AM-0147", "2026-02-24", 131m), ("AM-0147", "2026-02-25", 141m),
            ("AM-0147", "2026-02-26", 149m), ("AM-0147", "2026-02-27", 158m));
        var scene = new Scene(ledger: ledger).Towel().Scan("AM-0147").Chick(165);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        var finding = Assert.Single(scene.Events.OfType<FindingEvent>(), each => each.Severity == Severities.Red);
        Assert.Equal(("AM-0147", "loss"), (finding.Chick, finding.Finding));
        Assert.True(finding.Grams < finding.LowGrams);
    }
}
