using System.Text;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>Whatever goes wrong ends in a clear refusal or in no record, never in a wrong one.</summary>
public sealed class DoubtTests
{
    [Fact]
    public void Two_chicks_on_the_pan_are_implausible()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4 + 58.7);
        Assert.Equal(["implausible"], scene.TheWeighing.Reasons);
    }

    [Fact]
    public void A_swapped_code_is_implausible_and_says_which_chick_it_would_fit()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(312);
        Assert.Equal(["implausible"], scene.TheWeighing.Reasons);
        Assert.Equal("GR-0096", scene.TheWeighing.Fits);
        Assert.Contains("GR-0096", scene.TheWeighing.Remedy, StringComparison.Ordinal);
    }

    /// <summary>Possible for the one, a chick may lose as much; but far likelier as the weight of the other, who has none today.</summary>
    [Fact]
    public void A_weight_that_fits_another_chick_far_better_is_kept_and_told_with_how_much_likelier_it_is()
    {
        var scene = new Scene(ledger: Mates()).Towel().Scan("LB-0001").Chick(0.87 * Lovebird(19), noise: 0.05);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        var told = Assert.Single(scene.Events.OfType<AlertEvent>(), alert => alert.Text.Contains("likelier", StringComparison.Ordinal));
        Assert.Matches(@"LB-0001: \d+\.\d g is (\d{4,} times|over a million times) likelier as the weight of LB-0002, who has none today", told.Text);
    }

    /// <summary>No crop is so full; what it weighs is what its mate should. Too few mornings are known for the weight alone to speak of the crop.</summary>
    [Fact]
    public void A_gain_beyond_a_full_crop_that_fits_another_chick_is_implausible()
    {
        var scene = new Scene(ledger: Mates(from: 16)).Towel().Scan("LB-0002").Chick(Lovebird(19), noise: 0.05, seconds: 25);
        Assert.Equal(["implausible"], scene.TheWeighing.Reasons);
        Assert.Equal("LB-0001", scene.TheWeighing.Fits);
    }

    /// <summary>Far below what it should weigh it is not believed so soon, but no hand lies so long either.</summary>
    [Fact]
    public void A_lighter_chick_under_another_s_code_is_named_when_it_is_lifted_early()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(58.7, seconds: 12).Lift(66.9);
        Assert.Equal(["implausible"], scene.TheWeighing.Reasons);
        Assert.Equal("CN-0321", scene.TheWeighing.Fits);
    }

    /// <summary>The first on this liner: it is no stir of what lies there, for that is no grey.</summary>
    [Fact]
    public void A_coded_load_of_a_sixth_of_the_chick_is_answered_when_it_is_lifted()
    {
        var scene = new Scene().Towel().Chick(55, seconds: 2).Scan("GR-0096").Hold(9, 63.2, 0.4).Lift(63.2);
        Assert.Equal(("GR-0096", "rejected"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
    }

    [Fact]
    public void A_weight_near_the_chick_s_own_course_names_no_other()
    {
        var scene = new Scene(ledger: Mates()).Towel().Scan("LB-0001").Chick(0.97 * Lovebird(19), noise: 0.05);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.DoesNotContain(scene.Events.OfType<AlertEvent>(), alert => alert.Text.Contains("likelier", StringComparison.Ordinal));
    }

    // Two lovebirds of one age on the published curve (reference-curves.tsv), the second an eighth lighter, weighed for a fortnight.
    private static Ledger Mates(int from = 5)
    {
        var hatched = new DateOnly(2026, 2, 11);
        List<WeighingRow> rows = [];
        for (var age = from; age < 19; age++)
        {
            foreach (var (code, factor) in new[] { ("LB-0001", 1.0), ("LB-0002", 0.87) })
            {
                rows.Add(new WeighingRow(
                    Guid.NewGuid(), code, null, "Etc/UTC", hatched.AddDays(age), (long)(1000 * factor * Lovebird(age)), null, null, Verdict.Accepted, [], null, null, Origin.Imported, "test", null));
            }
        }

        return new Ledger([new Chick("LB-0001", "Rosy-faced lovebird", hatched), new Chick("LB-0002", "Rosy-faced lovebird", hatched)], rows, []);
    }

    private static double Lovebird(int age) => PublishedGrowth.Instance.At("Rosy-faced lovebird", age)!.Value.Grams;

    [Fact]
    public void A_chick_that_lost_a_tenth_is_bad_news_and_no_mistake() =>
        Assert.Equal("accepted", new Scene().Towel().Scan("AM-0147").Chick(159.8).TheWeighing.Verdict);

    [Theory]
    [InlineData(7.0)]
    [InlineData(60.0, "implausible")]
    public void Without_history_a_known_species_is_judged_within_a_factor_of_two(double grams, params string[] reasons) =>
        Assert.Equal(reasons, new Scene().Towel().Scan("LB-0008").Chick(grams, noise: 0.05).TheWeighing.Reasons);

    [Fact]
    public void An_overload_is_refused()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Ramp(0.4, 8.2, 2900);
        for (var i = 0; i < 40; i++)
            scene.Say("OL,GS,+9999999  g\r\n");
        Assert.Equal(["overload"], scene.TheWeighing.Reasons);
        Assert.Null(scene.TheWeighing.Grams);
    }

    [Fact]
    public void An_underload_is_refused()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4, 1);
        for (var i = 0; i < 40; i++)
            scene.Say("UL,GS,-9999999  g\r\n");
        Assert.Equal(["underload"], scene.TheWeighing.Reasons);
    }

    [Fact]
    public void A_unit_switched_under_load_refuses_the_placing()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4, 1).Say("US,GS,+   6.864 oz\r\n");
        Assert.Equal(["unit-changed"], scene.TheWeighing.Reasons);
        Assert.Contains(scene.Events.OfType<AlertEvent>(), alert => alert.Alert == "unit-changed");
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.15)]
    public void A_unit_that_changed_before_the_chick_came_is_no_reason_to_refuse_it(double amplitude)
    {
        var scene = new Scene().Towel().Swing(5, 8.2, amplitude);
        scene.Line = (grams, moving) => FormattableString.Invariant($"{(moving ? "US" : "ST")},GS,+{grams / 28.349523125,8:F3} oz\r\n");
        scene.Swing(7, 8.2, amplitude).Scan("AM-0147").Chick(186.4, seconds: 20);
        Assert.Equal(("AM-0147", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.3)]
    public void A_unit_that_changes_while_the_chick_comes_down_gives_no_weight(double seconds)
    {
        var scene = new Scene().Towel().Scan("AM-0147").Ramp(seconds, 8.2, 8.2 + 20 * seconds);
        scene.Line = (grams, moving) => FormattableString.Invariant($"{(moving ? "US" : "ST")},GS,+{grams / 28.349523125,8:F3} oz\r\n");
        scene.Ramp(0.3, 20, 194.6).Hold(20, 194.6, 0.05).Hold(10, 194.6, 0.6);
        Assert.DoesNotContain(scene.Weighings, each => each.Verdict == "accepted");
        Assert.Contains(scene.Weighings, each => each.Reasons.Contains("unit-changed"));
    }

    [Fact]
    public void A_unit_switched_at_rest_is_said_and_the_weight_is_converted_exactly()
    {
        var scene = new Scene().Towel();
        scene.Line = (grams, moving) => FormattableString.Invariant($"{(moving ? "US" : "ST")},GS,+{grams / 28.349523125,8:F3} oz\r\n");
        scene.Hold(2, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(186.4);
        Assert.Single(scene.Events.OfType<AlertEvent>(), alert => alert.Alert == "unit-changed");
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    /// <summary>The towel was on its way when the link went, and with the chick when it came back.</summary>
    [Fact]
    public void A_load_that_came_onto_the_bare_pan_as_the_link_was_lost_has_no_tare()
    {
        var scene = new Scene().Hold(2, 0).Ramp(0.4, 0, 8.2).Link(LinkChange.Down).Wait(4).Scan("AM-0147").Wait(2).Link(LinkChange.Up).Hold(20, 194.6, 0.4);
        Assert.Equal(["link-lost"], scene.TheWeighing.Reasons);
    }

    [Fact]
    public void A_link_lost_in_the_middle_is_refused_when_the_scale_is_not_heard_again()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4, 1).Link(LinkChange.Down).Wait(31);
        Assert.Equal(["link-lost"], scene.TheWeighing.Reasons);
    }

    [Fact]
    public void A_link_lost_in_the_middle_is_forgiven_when_the_load_then_stands_long_enough()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4, 1).Link(LinkChange.Down).Wait(3).Link(LinkChange.Up).Hold(4, 194.6, 0.4);
        Assert.Empty(scene.Weighings);
        scene.Hold(6, 194.6, 0.4);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    [Fact]
    public void A_chick_lifted_soon_after_the_link_came_back_is_link_lost()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4, 1).Link(LinkChange.Down).Wait(3).Link(LinkChange.Up).Hold(2, 194.6, 0.4).Lift(194.6);
        Assert.Equal(["link-lost"], scene.TheWeighing.Reasons);
    }

    [Fact]
    public void A_scale_that_started_anew_under_the_chick_gives_no_weight()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4, 1).Link(LinkChange.Down).Wait(3).Link(LinkChange.Up).Hold(20, 0, 0.4);
        Assert.Equal(["no-tare"], scene.TheWeighing.Reasons);

        // Lifted, the pan shows what the chick weighed, below zero; the next one is weighed from there.
        scene.Ramp(0.4, 0, -186.4).Hold(3, -186.4).Scan("GR-0096").Hold(1, -186.4).Chick(312, tare: -186.4, seconds: 12);
        Assert.All(scene.Weighings.Skip(1), weighing => Assert.True(weighing.Verdict == "rejected" || Math.Abs(weighing.Grams!.Value - 312) < 1));
    }

    [Fact]
    public void A_device_that_falls_silent_is_reported_once_and_again_when_it_speaks()
    {
        var scene = new Scene().Towel().Wait(11).Wait(100).Hold(1, 8.2);
        Assert.Equal(["silent", "up"], scene.Events.OfType<DeviceEvent>().Select(device => device.State));
        Assert.Equal(TimeSpan.FromSeconds(10), scene.Events.OfType<DeviceEvent>().First().At - new DateTimeOffset(2026, 3, 2, 5, 40, 6, 400, TimeSpan.Zero));
    }

    [Fact]
    public void A_scanner_is_never_silent() =>
        Assert.DoesNotContain(new Scene().Scan("AM-0147").Wait(3600).Events.OfType<DeviceEvent>(), device => device.Device == "scanner");

    [Fact]
    public void Garbage_between_the_lines_costs_nothing()
    {
        var scene = new Scene { Line = Dirty }.Towel().Scan("AM-0147").Chick(186.4);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);

        static string Dirty(double grams, bool moving) => "\0\0#~9,9.9 g\r\n" + Scene.HeaderComma(grams, moving) + "ST,GS\r\n";
    }

    [Fact]
    public void Lines_that_come_in_lumps_are_no_stillness()
    {
        var lump = new StringBuilder();
        var lines = 0;
        var scene = new Scene().Towel().Scan("AM-0147");
        scene.Line = (grams, moving) =>
        {
            lump.Append(Scene.HeaderComma(grams, moving));
            if (++lines % 8 != 0)
                return "";
            var text = lump.ToString();
            lump.Clear();
            return text;
        };
        scene.Ramp(0.5, 8.2, 120).Hold(3, 120, 0.05).Ramp(0.2, 120, 194.6).Hold(10, 194.6, 0.5);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    [Fact]
    public void Every_rejection_says_what_to_do()
    {
        foreach (var reason in (string[])["after-feed", "already-weighed", "implausible", "unsettled", "hand-contact", "unknown-chick",
            "no-code", "two-codes", "no-tare", "unit-changed", "overload", "underload", "link-lost"])
            Assert.True(CaptureAgent.Agent.Round.Reasons.RemedyFor(reason).Length > 20, reason);
    }
}
