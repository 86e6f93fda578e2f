using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Trace;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>The check card, then a known mass.</summary>
public sealed class CheckingTests
{
    private static Scene Station(decimal? mass = 200, decimal? tolerance = null, decimal? accuracy = null) => new(options =>
    {
        options.Devices[0].CheckMassGrams = mass;
        options.Devices[0].CheckToleranceGrams = tolerance;
        options.Devices[0].AccuracyGrams = accuracy;
    });

    private static CheckEvent TheCheck(Scene scene) => Assert.Single(scene.Events.OfType<CheckEvent>());

    private static IEnumerable<string> Alerts(Scene scene) => scene.Events.OfType<AlertEvent>().Select(alert => alert.Alert);

    [Theory]
    [InlineData(0, "bare pan")]
    [InlineData(8.2, "towel")]
    public void The_mass_is_weighed_on_a_bare_pan_and_on_a_towel(double tare, string under)
    {
        var scene = (tare > 0 ? Station().Towel() : Station().Hold(3, 0)).Scan("!CHECK").Hold(2, tare).Ramp(0.4, tare, tare + 200).Hold(12, tare + 200);
        var check = TheCheck(scene);
        Assert.True(check.Ok, under);
        Assert.Equal((200m, 0m, 0.1m, "scale"), (check.ExpectedGrams, Math.Round(check.ErrorGrams, 1), check.ToleranceGrams, check.Device));
        Assert.Equal(check.Grams - 200, check.ErrorGrams);
        Assert.InRange(check.UncertaintyGrams, 0.03m, 0.2m);
        Assert.Empty(scene.Lift(tare + 200, tare).Wait(5).Weighings);
        Assert.Empty(Alerts(scene));
        Assert.DoesNotContain(scene.Events.OfType<TareEvent>(), told => told.Grams > 100);
    }

    [Fact]
    public void A_mass_heavier_than_any_liner_is_weighed_too()
    {
        var scene = Station(1000).Hold(3, 0).Scan("!CHECK").Hold(2, 0).Ramp(0.4, 0, 1000).Hold(15, 1000);
        Assert.True(TheCheck(scene).Ok);
    }

    [Fact]
    public void A_scale_that_is_wrong_is_said_so_with_what_to_do()
    {
        var scene = Station().Towel().Scan("!CHECK").Ramp(0.4, 8.2, 209.5).Hold(12, 209.5);
        var check = TheCheck(scene);
        Assert.False(check.Ok);
        Assert.Equal(1.3m, Math.Round(check.ErrorGrams, 1));
        var alert = Assert.Single(scene.Events.OfType<AlertEvent>());
        Assert.Equal(("scale-out-of-tolerance", "scale"), (alert.Alert, alert.Device));
        Assert.Contains("off by 1.3 g", alert.Text, StringComparison.Ordinal);
        Assert.Contains("Do not adjust the weight of any chick", alert.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(null, null, 0.1)]
    [InlineData(null, 0.3, 0.3)]
    [InlineData(0.25, 0.3, 0.25)]
    public void The_tolerance_is_the_configured_one_or_the_larger_of_division_and_accuracy(double? tolerance, double? accuracy, double expected)
    {
        var scene = Station(200, (decimal?)tolerance, (decimal?)accuracy).Towel().Scan("!CHECK").Ramp(0.4, 8.2, 208.2).Hold(12, 208.2);
        Assert.Equal((decimal)expected, TheCheck(scene).ToleranceGrams);
    }

    [Fact]
    public void A_code_that_waits_goes_on_waiting_and_names_the_next_load()
    {
        var scene = Station().Towel().Scan("AM-0147").Hold(1, 8.2).Scan("!CHECK").Ramp(0.4, 8.2, 208.2).Hold(12, 208.2).Lift(208.2).Chick(186.4);
        Assert.NotNull(TheCheck(scene));
        Assert.Equal(("AM-0147", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
    }

    [Fact]
    public void A_code_scanned_while_the_mass_lies_there_waits_for_the_chick()
    {
        var scene = Station().Towel().Scan("!CHECK").Ramp(0.4, 8.2, 208.2).Hold(2, 208.2).Scan("AM-0147").Hold(10, 208.2).Lift(208.2).Chick(186.4);
        Assert.True(TheCheck(scene).Ok);
        Assert.Equal("AM-0147", scene.TheWeighing.Chick);
    }

    [Fact]
    public void A_towel_laid_after_the_card_is_still_the_liner()
    {
        var scene = Station().Hold(2, 0).Scan("!CHECK").Ramp(0.4, 0, 8.2).Hold(3, 8.2).Ramp(0.4, 8.2, 208.2).Hold(12, 208.2);
        Assert.True(TheCheck(scene).Ok);
    }

    [Fact]
    public void The_card_alone_is_dropped_after_a_minute()
    {
        var scene = Station().Towel().Scan("!CHECK").Hold(55, 8.2);
        Assert.Empty(Alerts(scene));
        scene.Hold(6, 8.2).Ramp(0.4, 8.2, 208.2).Hold(12, 208.2);
        Assert.Equal(["check-dropped"], Alerts(scene));
        Assert.Empty(scene.Events.OfType<CheckEvent>());
    }

    [Fact]
    public void A_mass_lifted_too_soon_is_no_check_and_no_weighing()
    {
        var scene = Station().Towel().Scan("!CHECK").Ramp(0.4, 8.2, 208.2).Hold(2, 208.2).Lift(208.2).Wait(5);
        Assert.Equal(["check-dropped"], Alerts(scene));
        Assert.Empty(scene.Weighings);
        Assert.Empty(scene.Events.OfType<CheckEvent>());
    }

    [Fact]
    public void Something_else_in_place_of_the_mass_is_not_recorded()
    {
        var scene = Station().Towel().Scan("!CHECK").Ramp(0.4, 8.2, 50).Hold(12, 50);
        var alert = Assert.Single(scene.Events.OfType<AlertEvent>());
        Assert.Equal("check-dropped", alert.Alert);
        Assert.Contains("41.8 g", alert.Text, StringComparison.Ordinal);
        Assert.Empty(scene.Events.OfType<CheckEvent>());
    }

    [Fact]
    public void A_scale_that_falls_silent_under_the_mass_drops_the_check()
    {
        var scene = Station().Towel().Scan("!CHECK").Ramp(0.4, 8.2, 208.2).Hold(2, 208.2).Link(LinkChange.Down).Wait(31);
        Assert.Equal(["check-dropped"], Alerts(scene));
    }

    [Fact]
    public void Without_a_mass_the_key_to_set_is_named_and_the_next_load_is_a_chick()
    {
        var scene = Station(mass: null).Towel().Scan("!CHECK").Scan("AM-0147").Chick(186.4);
        var alert = Assert.Single(scene.Events.OfType<AlertEvent>());
        Assert.Contains("checkMassGrams", alert.Text, StringComparison.Ordinal);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
    }
}
