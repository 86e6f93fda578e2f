using System.Globalization;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Rejudging;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Tests.Round;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Instruments;

/// <summary>Scales of the Weight Scale Service send one finished value a load, in steps of 5 g; the macaw is heavy enough for that, most chicks are not.</summary>
public sealed class FinishedScaleTests
{
    private static Ledger Macaws => new(
        [new Chick("MW-0002", "invented giant macaw", new DateOnly(2025, 12, 1)), new Chick("AM-0147", "amazon", new DateOnly(2026, 2, 6))],
        [Row("MW-0002", 1_795_000), Row("AM-0147", 177_500)],
        []);

    [Fact]
    public void One_value_for_the_liner_and_one_for_the_chick_make_a_weighing()
    {
        var scene = Scale().Grams(10).Scan("MW-0002").Grams(1810);
        var weighing = Assert.Single(scene.Weighings);
        Assert.Equal(("MW-0002", 1800m, "accepted", 10m), (weighing.Chick, weighing.Grams, weighing.Verdict, weighing.TareGrams));
        // Two readings rounded to 5 g, and half a step of accuracy: sqrt(2 * 25 / 12 + 6.25 / 3), JCGM 100 F.2.2.1 and 4.3.7.
        Assert.Equal(2.5m, weighing.UncertaintyGrams);
    }

    [Fact]
    public void A_chick_whose_band_is_finer_than_the_steps_is_refused_with_its_grams_and_a_remedy()
    {
        var scene = Scale().Grams(10).Scan("AM-0147").Grams(195);
        var weighing = Assert.Single(scene.Weighings);
        Assert.Equal(("rejected", 185m), (weighing.Verdict, weighing.Grams));
        Assert.Equal(["too-coarse"], weighing.Reasons);
        Assert.Contains("gram scale", weighing.Remedy, StringComparison.Ordinal);
    }

    // The band is 0.3 %: 5 g of 1,667 g.
    [Theory]
    [InlineData(1665, "rejected")]
    [InlineData(1670, "accepted")]
    public void The_band_is_a_share_of_the_weight(int grams, string verdict)
    {
        var scene = Scale().Grams(10).Scan("MW-0002").Grams(grams + 10);
        Assert.Equal(verdict, Assert.Single(scene.Weighings).Verdict);
    }

    [Fact]
    public void A_scale_that_says_it_is_coarser_still_is_believed()
    {
        // Code 1: half a kilogram.
        var scene = Scale().Send("scale", "2a9e", "08000000").Grams(0).Grams(500).Scan("MW-0002").Grams(2500);
        Assert.Equal(["too-coarse"], Assert.Single(scene.Weighings).Reasons);
    }

    [Fact]
    public void A_finer_division_in_the_configuration_does_not_make_the_format_finer()
    {
        var scene = new BinaryScene(Macaws, BinaryScene.Scale("weight-scale", device => device.DivisionGrams = 0.1m)).Grams(10).Scan("AM-0147").Grams(195);
        Assert.Equal(["too-coarse"], Assert.Single(scene.Weighings).Reasons);
    }

    [Fact]
    public void A_bare_pan_then_a_liner_then_a_chick()
    {
        var scene = Scale().Grams(0).Scan("MW-0002").Grams(65).Grams(1865, after: 3);
        Assert.Equal((1800m, 65m), (Assert.Single(scene.Weighings).Grams, scene.Weighings[0].TareGrams));
    }

    [Fact]
    public void The_code_may_follow_the_value()
    {
        var scene = Scale().Grams(10).Grams(1810, after: 5).Scan("MW-0002", after: 4);
        Assert.Equal(1800m, Assert.Single(scene.Weighings).Grams);
    }

    [Fact]
    public void A_code_after_the_lift_belongs_to_what_was_lifted()
    {
        var scene = Scale().Grams(10).Grams(1810, after: 5).Grams(10, after: 5).Scan("MW-0002", after: 2);
        Assert.Equal(("MW-0002", 1800m), (Assert.Single(scene.Weighings).Chick, scene.Weighings[0].Grams));
    }

    [Fact]
    public void A_load_without_a_code_is_told_so_and_never_given_the_next_code()
    {
        var scene = Scale().Grams(10).Grams(1810, after: 5).Grams(10, after: 5).Wait(4).Scan("MW-0002");
        Assert.Equal((null, "no-code"), (Assert.Single(scene.Weighings).Chick, Assert.Single(scene.Weighings[0].Reasons)));
    }

    [Fact]
    public void A_load_that_nobody_names_within_a_minute_is_told_so()
    {
        var scene = Scale().Grams(10).Grams(1810, after: 5).Wait(61);
        Assert.Equal(["no-code"], Assert.Single(scene.Weighings).Reasons);
    }

    [Fact]
    public void A_value_that_is_repeated_is_no_second_chick()
    {
        var scene = Scale().Grams(10).Scan("MW-0002").Grams(1810).Scan("AM-0147").Grams(1810).Grams(1805, after: 3);
        Assert.Equal("MW-0002", Assert.Single(scene.Weighings).Chick);
        scene.Grams(10, after: 4).Grams(195, after: 4);
        Assert.Equal("AM-0147", scene.Weighings[1].Chick);
    }

    [Fact]
    public void The_next_chick_may_come_without_a_value_of_the_empty_pan_between()
    {
        var scene = Scale().Grams(10).Scan("MW-0002").Grams(1810).Scan("AM-0147", after: 12).Grams(195, after: 4);
        Assert.Equal(["MW-0002", "AM-0147"], scene.Weighings.Select(one => one.Chick));
        Assert.Equal(185m, scene.Weighings[1].Grams);
    }

    [Fact]
    public void A_towel_laid_on_the_liner_is_tared_with_it()
    {
        var scene = Scale().Grams(10).Grams(25, after: 5).Scan("MW-0002", after: 1);
        // A code on a towel alone weighs the towel: refused, never recorded.
        Assert.Equal("rejected", Assert.Single(scene.Weighings).Verdict);
        scene = Scale().Grams(10).Grams(25, after: 5).Grams(1825, after: 9).Scan("MW-0002", after: 1);
        Assert.Equal((1800m, 25m), (Assert.Single(scene.Weighings).Grams, scene.Weighings[0].TareGrams));
    }

    [Fact]
    public void A_tub_that_was_put_on_the_liner_is_never_weighed_with_the_chick()
    {
        var scene = Scale().Grams(10).Grams(210, after: 5).Scan("MW-0002", after: 2);
        // Scanned while the tub lies there alone, the code is taken for the tub's: refused, for nobody weighs so little.
        Assert.Equal("rejected", Assert.Single(scene.Weighings).Verdict);

        scene = Scale().Grams(10).Grams(710, after: 5).Grams(2510, after: 9).Scan("MW-0002", after: 2);
        Assert.Equal((1800m, 710m, "accepted"), (Assert.Single(scene.Weighings).Grams, scene.Weighings[0].TareGrams, scene.Weighings[0].Verdict));
    }

    [Fact]
    public void A_chick_without_a_code_that_was_lifted_unseen_is_told_and_the_next_one_weighed()
    {
        var scene = Scale().Grams(10).Grams(400, after: 5).Grams(1810, after: 9).Scan("MW-0002", after: 2);
        Assert.Equal([(null, "rejected"), ("MW-0002", "accepted")], scene.Weighings.Select(one => (one.Chick, one.Verdict)));
        Assert.Equal(1800m, scene.Weighings[1].Grams);
    }

    [Fact]
    public void Where_nothing_tells_what_lies_under_the_chick_its_tare_is_not_known()
    {
        foreach (var code in (string[])["XX-0001", "MW-0002"])
        {
            // Nothing is known of the first; the second could weigh 1,800 g or 2,000 g.
            var scene = Scale().Grams(10).Grams(210, after: 5).Grams(2010, after: 9).Scan(code, after: 2);
            Assert.Equal(["no-code", "no-tare"], scene.Weighings.Select(one => Assert.Single(one.Reasons)));
        }
    }

    [Fact]
    public void A_heavy_load_at_the_very_start_has_no_tare()
    {
        var scene = Scale().Scan("MW-0002").Grams(1810);
        Assert.Equal(["no-tare"], Assert.Single(Scale().Send("scale", "2a9d", "00FFFF").Scan("MW-0002").Grams(1810, after: 2).Weighings).Reasons);
        Assert.Null(Assert.Single(scene.Weighings).Grams);
    }

    [Fact]
    public void A_light_chick_that_came_alone_is_answered_when_nothing_more_comes()
    {
        var scene = Scale().Scan("AM-0147").Grams(185).Wait(9);
        Assert.Equal(("too-coarse", 185m), (Assert.Single(Assert.Single(scene.Weighings).Reasons), scene.Weighings[0].Grams));
    }

    [Fact]
    public void What_the_scale_says_of_itself_counts_even_after_its_first_value()
    {
        var scene = Scale().Grams(0).Grams(500).Send("scale", "2a9e", "08000000").Scan("MW-0002").Grams(2500);
        Assert.Equal(["too-coarse"], Assert.Single(scene.Weighings).Reasons);
    }

    [Fact]
    public void More_than_the_scale_can_carry_is_no_weight()
    {
        var scene = new BinaryScene(Macaws, BinaryScene.Scale("weight-scale", device => device.CapacityGrams = 1500)).Grams(10).Scan("MW-0002").Grams(1810);
        Assert.Equal(("overload", null), (Assert.Single(Assert.Single(scene.Weighings).Reasons), scene.Weighings[0].Grams));
    }

    [Fact]
    public void A_measurement_that_failed_changes_nothing()
    {
        var scene = Scale().Grams(10).Scan("MW-0002").Send("scale", "2a9d", "00FFFF").Grams(1810);
        Assert.Equal(1800m, Assert.Single(scene.Weighings).Grams);
    }

    [Fact]
    public void Such_a_scale_is_not_silent_between_its_values() =>
        Assert.DoesNotContain(Scale().Grams(10).Wait(7200).Events, one => one is DeviceEvent { State: "silent" });

    [Fact]
    public void The_tare_card_and_the_check_card_work()
    {
        var scene = new BinaryScene(Macaws, BinaryScene.Scale("weight-scale", device => device.CheckMassGrams = 500)).Grams(20);
        scene.Scan("!CHECK").Grams(520, after: 3);
        Assert.Equal((500m, true), (Assert.Single(scene.Events.OfType<CheckEvent>()).Grams, scene.Events.OfType<CheckEvent>().Single().Ok));
        scene.Grams(300, after: 9).Scan("!TARE").Scan("MW-0002").Grams(2100);
        Assert.Equal((1800m, 300m), (Assert.Single(scene.Weighings).Grams, scene.Weighings[0].TareGrams));
    }

    [Fact]
    public void Its_evidence_is_judged_again_to_the_same_milligram()
    {
        var weighing = Assert.Single(Scale().Grams(10).Scan("MW-0002").Grams(1810).Weighings);
        var run = EvidenceRun.Of(EvidenceReader.Read(weighing.Evidence!), StationCore.NewSettler());
        Assert.Equal((SettleState.Settled, 1800.0), (run.State, run.Weight.Grams));
    }

    // A scale that was cut off before its weight was confirmed sends it again when it is connected again; its clock need not be right.
    [Theory]
    [InlineData("D1070101063B05", 1)]
    [InlineData("D1070101063C2A", 2)]
    public void A_weight_that_is_sent_again_with_its_time_does_not_count_for_the_next_chick(string laterTime, int weighings)
    {
        var scene = Scale().Send("scale", "2a9d", "020200D1070101063A00").Scan("MW-0002").Send("scale", "2a9d", "026A01D1070101063B05");
        scene.Scan("AM-0147").Send("scale", "2a9d", "026A01" + laterTime, after: 30);
        Assert.Equal(weighings, scene.Weighings.Count);
    }

    [Fact]
    public void A_clock_that_stands_is_not_used()
    {
        const string Standing = "D1070101000000";
        var scene = Scale().Send("scale", "2a9d", "020200" + Standing).Scan("MW-0002").Send("scale", "2a9d", "026A01" + Standing);
        scene.Scan("AM-0147").Send("scale", "2a9d", "026A01" + Standing, after: 30);
        Assert.Equal(2, scene.Weighings.Count);
    }

    [Fact]
    public void Pounds_step_by_a_hundredth()
    {
        // 0.02 lb of liner, 4.00 lb above it: 1,814 g.
        var scene = Scale().Send("scale", "2a9d", "010200").Scan("MW-0002").Send("scale", "2a9d", "019201");
        Assert.Equal(1814.369m, Assert.Single(scene.Weighings).Grams);
    }

    [Fact]
    public void An_advertised_mass_counts_once_it_stands_and_is_too_coarse_for_any_chick()
    {
        // Packet ids 1, 2, ...; 0.01 kg, then the chick on its way, then 0.31 kg twice.
        var scene = new BinaryScene(Macaws, BinaryScene.Scale("bthome")).Send("scale", "fcd2", "400001060100").Wait(4).Scan("AM-0147")
            .Send("scale", "fcd2", "400002060A00").Send("scale", "fcd2", "400002060A00").Send("scale", "fcd2", "400003061F00").Send("scale", "fcd2", "400004061F00");
        Assert.Equal(("AM-0147", 300m, "too-coarse"), (Assert.Single(scene.Weighings).Chick, scene.Weighings[0].Grams, Assert.Single(scene.Weighings[0].Reasons)));
    }

    private static BinaryScene Scale() => new(Macaws, BinaryScene.Scale("weight-scale"));

    private static WeighingRow Row(string code, long milligrams) => new(
        Guid.NewGuid(), code, null, "Etc/UTC", new DateOnly(2026, 3, 1), milligrams, null, null, Verdict.Accepted, [], null, null, Origin.Imported, "test", null);
}

/// <summary>Weight Measurement frames in kilograms.</summary>
internal static class FinishedScaleFrames
{
    public static BinaryScene Grams(this BinaryScene scene, int grams, double after = 1)
    {
        var raw = grams / 5;
        return scene.Send("scale", "2a9d", string.Create(CultureInfo.InvariantCulture, $"00{raw & 0xFF:X2}{raw >> 8:X2}"), after);
    }
}
