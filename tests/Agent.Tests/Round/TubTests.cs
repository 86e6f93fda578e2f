using System.Globalization;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>A tub that is lifted out and put back with the chick in it.</summary>
public sealed class TubTests
{
    private const double Tub = 143.6;

    [Theory]
    [InlineData(2, 0.15)]
    [InlineData(6, 0.15)]
    [InlineData(20, 0.15)]
    [InlineData(6, 0)]
    [InlineData(12, 0.4)]
    public void The_chick_put_back_is_no_weighing_and_the_next_one_is_weighed_in_the_tub(double stay, double noise)
    {
        var scene = Weighed();
        scene.Ramp(0.5, Tub + 58.7, 0).Hold(3, 0).Ramp(0.5, 0, Tub + 58.7).Hold(stay, Tub + 58.7, noise);
        Assert.Single(scene.Weighings);
        scene.Ramp(0.4, Tub + 58.7, Tub).Hold(5, Tub).Scan("AM-0201").Hold(1, Tub).Chick(186.4, tare: Tub, seconds: 20);
        Assert.Equal(("AM-0201", "accepted"), (scene.Weighings[^1].Chick, scene.Weighings[^1].Verdict));
        Assert.InRange(scene.Weighings[^1].Grams!.Value, 185.9m, 186.9m);
        Assert.Equal(143.6m, Math.Round(scene.Weighings[^1].TareGrams!.Value, 1));
        Assert.DoesNotContain(scene.Weighings.Skip(1).SkipLast(1), weighing => weighing.Verdict == "accepted" || weighing.Grams is not null);
        Assert.DoesNotContain(scene.Events, told => told is AlertEvent or TareAfterEvent { Slip: true });
    }

    [Fact]
    public void A_code_scanned_just_after_the_chick_was_taken_out_of_the_tub_gets_no_weight()
    {
        var scene = Weighed();
        scene.Ramp(0.5, Tub + 58.7, 0).Hold(3, 0).Ramp(0.5, 0, Tub + 58.7).Hold(12, Tub + 58.7, 0.4)
            .Ramp(0.4, Tub + 58.7, Tub).Hold(2, Tub).Scan("AM-0201").Hold(2, Tub);
        var refused = scene.Weighings[^1];
        Assert.Equal(("AM-0201", "rejected", null), (refused.Chick, refused.Verdict, refused.Grams));
        Assert.Equal(["no-tare"], refused.Reasons);
    }

    [Fact]
    public void A_code_scanned_later_waits_for_the_next_chick_though_the_tub_had_to_lie_still_before_it_was_known_for_one()
    {
        var scene = Weighed();
        scene.Ramp(0.5, Tub + 58.7, 0).Hold(3, 0).Ramp(0.5, 0, Tub + 58.7).Hold(12, Tub + 58.7, 0.4)
            .Ramp(0.4, Tub + 58.7, Tub).Hold(3.8, Tub).Scan("AM-0201").Hold(1.5, Tub).Chick(186.4, tare: Tub, seconds: 20);
        Assert.Equal(("AM-0201", "accepted"), (scene.Weighings[^1].Chick, scene.Weighings[^1].Verdict));
        Assert.InRange(scene.Weighings[^1].Grams!.Value, 185.9m, 186.9m);
    }

    [Fact]
    public void A_tub_that_nobody_has_seen_empty_is_the_liner_once_it_has_lain_still_for_longer_than_a_hand()
    {
        var scene = new Scene(ledger: Nursery()).Hold(2, 0).Ramp(0.5, 0, Tub + 58.7).Hold(6, Tub + 58.7, 0.4).Ramp(0.4, Tub + 58.7, Tub).Hold(11, Tub)
            .Scan("AM-0201").Hold(1, Tub).Chick(186.4, tare: Tub, seconds: 20);
        Assert.Equal(["no-code"], scene.Weighings[0].Reasons);
        Assert.Null(scene.Weighings[0].Grams);
        Assert.Equal("accepted", scene.Weighings[1].Verdict);
        Assert.InRange(scene.Weighings[1].Grams!.Value, 185.9m, 186.9m);
    }

    /// <summary>Of its first morning: no lovebird weighs as much as the tub with it.</summary>
    [Fact]
    public void Whose_code_comes_late_on_its_first_morning_is_weighed_in_a_new_tub_where_its_species_tells()
    {
        var scene = new Scene().Hold(2, 0).Ramp(0.4, 0, Tub).Hold(4, Tub).Chick(9.2, tare: Tub, seconds: 3, noise: 0.05).Scan("LB-0008").Hold(12, Tub + 9.2, 0.05);
        Assert.Equal(("LB-0008", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 9.1m, 9.3m);
        Assert.Equal(143.6m, Math.Round(scene.TheWeighing.TareGrams!.Value, 1));
    }

    [Fact]
    public void Of_whom_nothing_is_known_is_weighed_in_a_new_tub_that_lay_in_equilibrium()
    {
        var scene = new Scene().Hold(2, 0).Ramp(0.4, 0, Tub).Hold(4, Tub).Chick(59.2, tare: Tub, seconds: 3, noise: 0.2).Scan("XX-0001").Hold(12, Tub + 59.2, 0.2);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 59.0m, 59.4m);
    }

    /// <summary>On a bare pan a hand that carries a tenth of it for a moment leaves what looks like a towel, and a chick of a gram.</summary>
    [Theory]
    [InlineData(0.1)]
    [InlineData(0.2)]
    public void Of_whom_nothing_is_known_has_no_tare_where_a_hand_may_have_held_the_rest(double carried)
    {
        var held = (1 - carried) * 8.6;
        var scene = new Scene().Hold(2, 0).Scan("XX-0001").Ramp(0.4, 0, held).Hold(1.5, held, 0.02).Ramp(0.2, held, 8.6).Hold(15, 8.6, 0.02).Ramp(0.4, 8.6, 0).Hold(65, 0);
        Assert.DoesNotContain(scene.Weighings, each => each.Verdict == "accepted");
    }

    [Fact]
    public void A_sleeper_on_a_bare_pan_that_a_hand_had_pressed_is_still_a_chick()
    {
        var ledger = Scene.Nursery(("LB-0008", "2026-03-01", 23.4m));
        var scene = new Scene(ledger: ledger).Hold(2, 0).Scan("LB-0008").Ramp(0.6, 0, 32).Hold(1.5, 32, 1.2).Ramp(0.2, 32, 24.6).Hold(15, 24.6);
        Assert.Equal("LB-0008", scene.TheWeighing.Chick);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 24.5m, 24.7m);
    }

    [Theory]
    [InlineData(0, 0.4)]
    [InlineData(0, 0.05)]
    [InlineData(-300, 0.4)]
    public void Whose_code_waits_when_it_is_put_back_in_its_tub_is_weighed_in_it(double hand, double noise)
    {
        var scene = Used(Tub).Lift(Tub + 58.7, Tub, 4);
        scene.Scan("GR-0096").Hold(1, Tub).Ramp(0.4, Tub, 0).Hold(4, 0).Ramp(0.5, 0, Tub + 312 + hand).Hold(hand == 0 ? 0.1 : 2, Tub + 312 + hand, 3).Ramp(0.2, Tub + 312 + hand, Tub + 312).Hold(14, Tub + 312, noise);
        Assert.Equal(("GR-0096", "accepted"), (scene.Weighings[^1].Chick, scene.Weighings[^1].Verdict));
        Assert.InRange(scene.Weighings[^1].Grams!.Value, 311.2m, 312.8m);
        Assert.Equal(143.6m, Math.Round(scene.Weighings[^1].TareGrams!.Value, 1));
    }

    [Fact]
    public void A_small_one_that_lies_still_in_its_tub_is_weighed_though_both_weigh_about_what_the_tub_did()
    {
        var ledger = new Ledger([new Chick("LB-0008", null, new DateOnly(2026, 2, 25)), new Chick("CN-0321", "conure", new DateOnly(2026, 2, 12))], [Row("LB-0008", "2026-02-28", 7.0m), Row("LB-0008", "2026-03-01", 7.8m)], []);
        var scene = Used(Tub, ledger).Lift(Tub + 58.7, Tub, 4);
        scene.Scan("LB-0008").Hold(1, Tub).Ramp(0.4, Tub, 0).Hold(4, 0).Ramp(0.5, 0, Tub + 8.6).Hold(16, Tub + 8.6, 0.05);
        Assert.Equal(("LB-0008", "accepted"), (scene.Weighings[^1].Chick, scene.Weighings[^1].Verdict));
        Assert.InRange(scene.Weighings[^1].Grams!.Value, 8.5m, 8.7m);
    }

    [Fact]
    public void A_chick_that_would_have_gained_so_much_is_weighed_in_the_tub_that_was_fetched()
    {
        var ledger = Scene.Nursery(("GR-0096", "2026-02-25", 240.1m), ("GR-0096", "2026-02-26", 255.3m), ("GR-0096", "2026-02-27", 269.8m));
        const double Light = 61.2;
        var scene = Used(Light, ledger).Lift(Light + 58.7, Light, 4);
        scene.Scan("GR-0096").Hold(1, Light).Ramp(0.4, Light, 0).Hold(4, 0).Ramp(0.5, 0, Light + 312).Hold(14, Light + 312, 0.8);
        Assert.Equal(("GR-0096", "accepted"), (scene.Weighings[^1].Chick, scene.Weighings[^1].Verdict));
        Assert.InRange(scene.Weighings[^1].Grams!.Value, 311.2m, 312.8m);
    }

    [Fact]
    public void The_tub_is_known_though_the_pan_was_bare_for_only_a_few_readings()
    {
        var scene = Used(Tub).Lift(Tub + 58.7, Tub, 4);
        scene.Scan("GR-0096").Hold(1, Tub).Ramp(0.3, Tub, 0).Hold(0.4, 0).Ramp(0.3, 0, Tub + 312).Hold(14, Tub + 312, 0.15);
        Assert.Equal(("GR-0096", "accepted"), (scene.Weighings[^1].Chick, scene.Weighings[^1].Verdict));
        Assert.InRange(scene.Weighings[^1].Grams!.Value, 311.2m, 312.8m);
    }

    [Fact]
    public void What_came_onto_a_pan_that_was_bare_for_a_moment_is_not_weighed_with_another_liner_in_it()
    {
        var scene = new Scene().Towel().Scan("CN-0321").Hold(1, 8.2).Chick(58.7, noise: 0.1).Lift(66.9, 8.2, 4);
        scene.Scan("GR-0096").Hold(1, 8.2).Ramp(0.3, 8.2, 0).Hold(0.4, 0).Ramp(0.3, 0, 318).Hold(20, 318, 0.15).Ramp(0.4, 318, 0).Hold(3, 0);
        Assert.DoesNotContain(scene.Weighings.Skip(1), each => each.Verdict == "accepted");
    }

    [Theory]
    [InlineData(0.4)]
    [InlineData(1.5)]
    public void Of_whom_nothing_is_known_its_weight_with_the_tub_is_never_taken(double noise)
    {
        var scene = Weighed().Lift(Tub + 58.7, Tub, 4);
        scene.Scan("AM-0201").Hold(1, Tub).Ramp(0.4, Tub, 0).Hold(4, 0).Ramp(0.5, 0, Tub + 186.4).Hold(20, Tub + 186.4, noise).Ramp(0.4, Tub + 186.4, 0).Hold(3, 0);
        Assert.DoesNotContain(scene.Weighings.Skip(1), each => each.Verdict == "accepted");
        Assert.Contains(scene.Weighings, each => each is { Chick: "AM-0201", Verdict: "rejected" } && each.Reasons.Contains("no-tare"));
    }

    // A chick has been weighed in the tub.
    private static Scene Used(double tub, Ledger? ledger = null) =>
        new Scene(ledger: ledger).Towel(tub, 8).Scan("CN-0321").Hold(1, tub).Chick(58.7, tare: tub, noise: 0.1);

    private static Scene Weighed()
    {
        var scene = Used(Tub, Nursery());
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        return scene;
    }

    private static WeighingRow Row(string code, string date, decimal grams) => new(
        Guid.NewGuid(), code, null, "Etc/UTC", DateOnly.Parse(date, CultureInfo.InvariantCulture), (long)(grams * 1000), null, null, Verdict.Accepted, [], null, null, Origin.Imported, "test", null);

    // Neither has a weight yet, so that nothing but the tare can tell a right weight from a wrong one.
    private static Ledger Nursery() =>
        new([new Chick("AM-0201", "amazon", new DateOnly(2026, 2, 6)), new Chick("CN-0321", "conure", new DateOnly(2026, 2, 12))], [], []);
}
