using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Trace;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>The tare: what lies still before the chick, however it got there.</summary>
public sealed class LinerTests
{
    [Fact]
    public void The_first_still_load_on_a_bare_pan_is_the_liner()
    {
        var scene = new Scene().Towel();
        var tare = Assert.Single(scene.Events.OfType<TareEvent>());
        Assert.InRange(tare.Grams, 8.1m, 8.3m);
    }

    [Fact]
    public void A_code_that_comes_while_the_liner_lies_alone_waits_for_the_chick()
    {
        var scene = new Scene().Hold(2, 0).Scan("AM-0147").Ramp(0.4, 0, 8.2).Hold(7, 8.2).Chick(186.4);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    [Fact]
    public void A_towel_is_never_recorded_as_a_chick_however_light_the_chick()
    {
        var ledger = Scene.Nursery(("LB-0008", "2026-03-01", 7.6m));
        var scene = new Scene(ledger: ledger).Towel().Scan("AM-0147").Chick(186.4).Lift(194.6)
            .Scan("LB-0008").Hold(2, 8.2).Ramp(0.3, 8.2, 0).Hold(2, 0).Ramp(0.3, 0, 8.3).Hold(40, 8.3);
        Assert.DoesNotContain(scene.Weighings, weighing => weighing.Chick == "LB-0008");
    }

    [Fact]
    public void A_sleeping_hatchling_on_a_bare_pan_is_weighed_when_nothing_more_comes_and_it_fits()
    {
        var ledger = Scene.Nursery(("LB-0008", "2026-03-01", 7.6m));
        var scene = new Scene(ledger: ledger).Hold(2, 0).Scan("LB-0008").Ramp(0.4, 0, 8.3).Hold(20, 8.3);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 8.2m, 8.4m);
    }

    [Fact]
    public void A_stir_of_a_chick_that_was_presumed_to_be_the_liner_uses_up_no_code()
    {
        var scene = new Scene().Hold(2, 0).Ramp(0.4, 0, 186.4).Hold(2, 186.4).Scan("AM-0147").Hold(1, 186.4).Hold(4, 187.2, 0.3).Hold(14, 186.4, 0.2);
        Assert.Equal(("AM-0147", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    [Fact]
    public void A_chick_that_stirs_on_a_coarse_scale_and_lies_still_again_at_another_level_is_no_liner()
    {
        // One simulated placing at four readings a second; the hand let go after eight seconds, the truth is 227.9 g.
        ReadOnlySpan<int> shown =
        [
            0, 0, 0, 0, 2, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 46, 220, 230, 230, 230, 232, 230, 230, 230, 230, 232, 232, 230, 234, 234, 232, 238, 230, 238, 238,
            230, 236, 228, 240, 220, 224, 238, 236, 238, 236, 228, 240, 234, 234, 232, 236, 234, 228, 238, 230, 236, 232, 234, 226, 240, 228, 234, 234, 242, 232, 234,
            234, 234, 236, 234, 234, 234, 234, 234, 228, 236, 236, 232, 240, 226, 236, 230, 236, 228, 236, 238, 232, 238, 232, 234, 232, 234, 230, 232, 234, 238, 236,
            232, 236, 230, 234, 232, 232, 238, 234, 238, 232, 236,
        ];
        var scene = new Scene(options => options.Devices[0].DivisionGrams = 2, Scene.Nursery(("XX-0001", "2026-02-27", 201m), ("XX-0001", "2026-02-28", 211m), ("XX-0001", "2026-03-01", 221m)));

        // It was lifted after ten seconds, on the point of being answered; a keeper who waits leaves it there: its last four seconds once more.
        int[] waited = [.. shown, .. shown[^16..], 170, 6, 6, 6, 6, 6, 6, 6, 6];
        for (var i = 0; i < waited.Length; i++)
        {
            if (i == 12)
                scene.Scan("XX-0001");
            scene.Say(Scene.HeaderComma(waited[i], moving: true), 0.25);
        }

        Assert.Equal(("XX-0001", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 225.9m, 229.9m);
    }

    [Theory]
    [InlineData(4.3)]
    [InlineData(6.2)]
    [InlineData(7.7)]
    public void A_towel_of_two_or_three_divisions_is_the_liner_and_what_lies_still_on_it_the_chick(double towel)
    {
        var scene = Coarse().Towel(towel).Scan("AM-0147").Ramp(0.4, towel, towel + 214).Hold(4, towel + 214).Ramp(0.3, towel + 214, towel + 186.4).Hold(20, towel + 186.4);
        Assert.Equal(("AM-0147", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 184.4m, 188.4m);
    }

    [Fact]
    public void A_tub_that_is_laid_in_place_of_such_a_towel_is_the_liner_in_its_turn()
    {
        var scene = Coarse().Towel(6.2).Ramp(0.3, 6.2, 0).Hold(3, 0).Scan("AM-0147").Ramp(0.4, 0, 96.3).Hold(4, 96.3).Chick(186.4, tare: 96.3);
        Assert.Equal(("AM-0147", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.TareGrams!.Value, 95m, 97.5m);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 184.4m, 188.4m);
    }

    private static Scene Coarse() => new(options => options.Devices[0].DivisionGrams = 2) { Line = (grams, moving) => Scene.HeaderComma(2 * Math.Round(grams / 2), moving) };

    [Fact]
    public void What_a_still_hand_carried_on_a_coarse_scale_was_no_liner()
    {
        var scene = Carried();
        Assert.Equal(("XX-0001", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 223.9m, 227.9m);
    }

    /// <summary>One simulated placing at four readings a second: a towel of 5 g that nobody can see on a scale of 2 g, 92 g under the hand for a second; the truth is 225.8 g.</summary>
    internal static Scene Carried()
    {
        ReadOnlySpan<int> shown =
        [
            0, 0, 0, 0, 0, 2, 4, 4, 4, 4, 6, 4, 6, 6, 4, 4, 4, 6, 4, 6, 4, 6, 4, 6, 4, 4, 6, 24, 76, 88, 92, 92, 92, 92, 92, 172, 218, 228, 230, 230, 230, 232, 230, 230, 230,
            232, 230, 230, 230, 230, 230, 230, 232, 230, 230, 230, 230, 230, 232, 230, 230, 230, 230, 230, 230, 230, 230, 230, 230, 230, 230, 232, 230, 230, 232, 230, 232,
        ];
        var scene = new Scene(options => options.Devices[0].DivisionGrams = 2, Scene.Nursery(("XX-0001", "2026-02-27", 201m), ("XX-0001", "2026-02-28", 206m), ("XX-0001", "2026-03-01", 211m)));
        for (var i = 0; i < shown.Length; i++)
        {
            if (i == 20)
                scene.Scan("XX-0001");
            scene.Say(Scene.HeaderComma(shown[i], moving: true), 0.25);
        }

        return scene;
    }

    [Fact]
    public void A_still_chick_that_an_unsteady_hand_let_go_on_a_coarse_scale_is_weighed_and_not_taken_for_a_liner()
    {
        // One simulated placing at eight readings a second: a towel of 6 g that nobody can see, 284 g and less under the hand, the truth is 359.9 g.
        ReadOnlySpan<int> shown =
        [
            0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 2, 2, 2, 4, 4, 4, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 8, 12, 30, 60,
            104, 140, 164, 190, 214, 226, 240, 250, 254, 258, 262, 264, 270, 274, 278, 278, 280, 280, 280, 282, 284, 284, 284, 284, 284, 282, 280, 278, 274, 270, 268, 268, 270,
            276, 288, 300, 316, 326, 332, 342, 348, 354, 358, 360, 362, 362, 364, 364, 364,
        ];
        var scene = new Scene(options => options.Devices[0].DivisionGrams = 2, Scene.Nursery(("XX-0001", "2026-02-27", 326m), ("XX-0001", "2026-02-28", 338m), ("XX-0001", "2026-03-01", 350m)));
        for (var i = 0; i < shown.Length + 120; i++)
        {
            if (i == 40)
                scene.Scan("XX-0001");
            scene.Say(Scene.HeaderComma(i < shown.Length ? shown[i] : 366, moving: true), 0.125);
        }

        Assert.Equal(("XX-0001", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 357.9m, 361.9m);
    }

    [Fact]
    public void What_is_laid_into_a_tub_that_had_lain_there_for_long_makes_no_chick_of_both()
    {
        var ledger = Scene.Nursery(("XX-0001", "2026-02-27", 150m), ("XX-0001", "2026-02-28", 155m), ("XX-0001", "2026-03-01", 160m));
        var scene = new Scene(ledger: ledger).Hold(2, 0).Ramp(0.4, 0, 120).Hold(9, 120).Scan("XX-0001").Hold(1, 120).Ramp(0.2, 120, 110).Ramp(0.4, 110, 166).Hold(20, 166);
        Assert.Empty(scene.Weighings);
    }

    [Fact]
    public void A_tub_that_was_put_down_with_a_swing_is_not_tared_below_all_that_was_read_since()
    {
        // One simulated tub of 139.6 g on a slow scale of 2 g, seconds and grams: a tail through its rise and its rest would end at 134.
        ReadOnlySpan<(double At, int Grams)> shown =
        [
            (0.827, 0), (0.934, 0), (1.060, 0), (1.244, 10), (1.292, 18), (1.426, 54), (1.554, 86), (1.707, 110), (1.811, 122), (1.964, 130), (2.048, 134),
            (2.179, 136), (2.334, 138), (2.436, 138), (2.506, 138), (2.699, 138), (2.776, 138), (2.944, 138), (3.051, 138), (3.189, 140), (3.330, 140),
            (3.440, 140), (3.560, 140), (3.685, 138), (3.793, 140), (3.911, 140), (4.068, 140), (4.143, 140), (4.315, 140), (4.442, 140), (4.615, 138),
            (4.691, 140), (4.835, 140), (4.938, 140),
        ];
        var scene = new Scene(options => options.Devices[0].DivisionGrams = 2).Hold(1, 0);
        var before = shown[0].At - 0.1;
        foreach (var (at, grams) in shown)
        {
            scene.Say(Scene.HeaderComma(grams, moving: false), at - before);
            before = at;
        }

        Assert.All(scene.Events.OfType<TareEvent>(), tare => Assert.InRange(tare.Grams, 137m, 141m));
        Assert.NotEmpty(scene.Events.OfType<TareEvent>());
    }

    [Fact]
    public void A_hatchling_lighter_than_the_towel_is_weighed_on_it()
    {
        var ledger = Scene.Nursery(("LB-0008", "2026-03-01", 4.1m));
        var scene = new Scene(ledger: ledger).Towel(12.4).Scan("LB-0008").Hold(1, 12.4).Ramp(0.5, 12.4, 17).Hold(14, 17, 0.05);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 4.5m, 4.7m);
    }

    [Fact]
    public void Droppings_left_behind_belong_to_the_next_tare()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4).Lift(194.6, tare: 9.4)
            .Scan("GR-0096").Hold(1, 9.4).Chick(312, tare: 9.4);
        Assert.Equal(9.4m, Math.Round(scene.Weighings[1].TareGrams!.Value, 1));
        Assert.InRange(scene.Weighings[1].Grams!.Value, 311.4m, 312.6m);
    }

    [Fact]
    public void A_fresh_towel_laid_on_the_old_one_is_tared_with_it()
    {
        var scene = new Scene().Towel().Ramp(0.3, 8.2, 16.5).Hold(8, 16.5).Scan("AM-0147").Hold(1, 16.5);
        Assert.DoesNotContain(scene.Events.OfType<WeighingEvent>(), weighing => weighing.Verdict == "accepted");
    }

    [Theory]
    [InlineData(0.9)]
    [InlineData(3)]
    [InlineData(4.5)]
    public void What_falls_onto_the_liner_while_a_code_waits_belongs_to_the_tare(double dropped)
    {
        var liner = 8.2 + dropped;
        var scene = new Scene().Towel().Scan("AM-0147").Hold(1, 8.2).Ramp(0.3, 8.2, liner).Hold(4, liner).Chick(186.4, tare: liner);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
        Assert.InRange(scene.TheWeighing.TareGrams!.Value, (decimal)liner - 0.1m, (decimal)liner + 0.1m);
    }

    [Theory]
    [InlineData(1.2)]
    [InlineData(4.5)]
    public void What_fell_onto_the_liner_belongs_to_the_tare_though_the_code_comes_after_the_chick(double dropped)
    {
        var liner = 8.2 + dropped;
        var scene = new Scene().Towel(seconds: 8).Ramp(0.3, 8.2, liner).Hold(4, liner).Chick(186.4, tare: liner, seconds: 2).Scan("AM-0147").Hold(9, liner + 186.4, 0.4);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
        Assert.InRange(scene.TheWeighing.TareGrams!.Value, (decimal)liner - 0.1m, (decimal)liner + 0.1m);
    }

    [Fact]
    public void What_fell_onto_the_liner_is_tared_where_only_without_it_a_hatchling_weighs_what_it_should()
    {
        var ledger = Scene.Nursery(("LB-0008", "2026-02-28", 4.7m), ("LB-0008", "2026-03-01", 5.0m));
        var scene = new Scene(ledger: ledger).Towel(seconds: 8).Ramp(0.3, 8.2, 10.4).Hold(3.2, 10.4).Chick(5.4, tare: 10.4, seconds: 2, noise: 0.05).Scan("LB-0008").Hold(14, 15.8, 0.05);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 5.3m, 5.5m);
    }

    [Fact]
    public void A_liner_that_never_lay_still_is_no_part_of_the_chick()
    {
        var scene = new Scene().Hold(2, 0).Ramp(0.4, 0, 22).Swing(3.5, 22, 1).Scan("AM-0147").Swing(1, 22, 1).Chick(186.4, tare: 22, seconds: 20, noise: 0.4);
        Assert.DoesNotContain(scene.Weighings, weighing => weighing.Verdict == "accepted" && weighing.Grams > 188);
    }

    [Fact]
    public void A_bare_pan_that_swings_is_on_its_way_to_no_tare()
    {
        // A fan at twenty readings a second, slow enough to look like the beginning of a rise.
        ReadOnlySpan<(int Milliseconds, double Grams)> shown =
        [
            (77, 0), (38, -0.5), (57, -0.5), (50, -1), (40, -0.5), (51, -1), (48, -0.5), (64, -0.5), (52, -0.5), (38, -0.5), (53, 0), (56, -0.5), (51, 0),
            (43, 0.5), (43, 0.5), (62, 0.5), (43, 1), (46, 1), (51, 1), (65, 1), (49, 0.5), (36, 1), (62, 0.5), (46, 0.5), (52, 0), (41, 0), (57, -0.5),
            (42, -0.5), (46, -0.5), (60, -1), (56, -1), (45, -1), (54, -1), (52, -1), (38, -0.5), (59, -0.5), (42, 0), (57, 0), (53, 0.5), (52, 0.5), (51, 0.5),
            (43, 1), (45, 1), (51, 1), (55, 1), (49, 1), (43, 1), (58, 0.5), (54, 0), (49, 0), (35, -0.5),
        ];
        var scene = new Scene(options => options.Devices[0].DivisionGrams = 0.5m);
        foreach (var (milliseconds, grams) in shown)
            scene.Say(Scene.HeaderComma(grams, moving: true), milliseconds / 1000.0);
        Assert.DoesNotContain(scene.Events.OfType<TareEvent>(), tare => tare.Grams > 2);
    }

    [Fact]
    public void A_fold_of_the_liner_that_has_just_come_to_rest_takes_no_code()
    {
        var scene = new Scene().Towel(6.8, seconds: 8);
        foreach (var grams in (ReadOnlySpan<double>)[8, 12.6, 13.9, 11, 9.3, 8.3, 7.8, 7.5, 7.3, 7.3, 7.2, 7.2, 7.2, 7.3, 7.2, 7.2, 7.2, 7.2, 7.2, 7.2])
            scene.Say(Scene.HeaderComma(grams, moving: true), 0.2);
        scene.Scan("AM-0147").Hold(2, 7.2).Chick(186.4, tare: 7.2);
        Assert.Contains(scene.Weighings, weighing => weighing is { Chick: "AM-0147", Verdict: "accepted", Grams: > 185.9m and < 186.9m });
    }

    [Fact]
    public void What_came_onto_the_liner_is_no_tare_where_the_chick_with_it_weighs_what_it_should()
    {
        // 23.4 g yesterday: 24.6 g fit, 22 g hardly.
        var ledger = Scene.Nursery(("LB-0008", "2026-02-27", 21m), ("LB-0008", "2026-02-28", 22.2m), ("LB-0008", "2026-03-01", 23.4m));
        var scene = new Scene(ledger: ledger).Towel(seconds: 8).Scan("LB-0008").Hold(1, 8.2).Ramp(0.3, 8.2, 11.2).Hold(4, 11.2).Chick(21.6, tare: 11.2, seconds: 14, noise: 0.05);
        Assert.DoesNotContain(scene.Weighings, weighing => weighing.Verdict == "accepted");
    }

    [Fact]
    public void A_chick_that_a_hand_carries_half_is_no_thing_on_the_liner()
    {
        var scene = new Scene().Towel(seconds: 8).Scan("AM-0147").Ramp(0.5, 8.2, 101).Hold(4, 101).Ramp(0.2, 101, 194.6).Hold(9, 194.6, 0.4);
        Assert.Equal(8.2m, Math.Round(scene.TheWeighing.TareGrams!.Value, 1));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    [Theory]
    [InlineData(0.3)]
    [InlineData(0.6)]
    [InlineData(2)]
    public void A_liner_that_is_changed_for_another_is_no_load_that_was_found(double bareSeconds)
    {
        var scene = new Scene().Towel(seconds: 6).Ramp(0.5, 8.2, 0).Hold(bareSeconds, 0).Ramp(0.8, 0, 12).Hold(7, 12).Scan("AM-0147").Hold(1, 12).Chick(186.4, tare: 12);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    [Fact]
    public void A_tub_is_tared_like_a_towel()
    {
        var scene = new Scene().Towel(143.6, 8).Scan("CN-0321").Hold(1, 143.6).Chick(58.7, tare: 143.6, noise: 0.1);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 58.5m, 58.9m);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
    }

    [Fact]
    public void The_scale_s_own_tare_key_is_followed_and_the_towel_going_away_too()
    {
        var scene = new Scene().Towel(seconds: 8).Hold(3, 0).Scan("AM-0147").Hold(1, 0).Chick(186.4, tare: 0, seconds: 10);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.Equal(0m, Math.Round(scene.TheWeighing.TareGrams!.Value, 1));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);

        // The towel goes: -8.2; a new one of 9 g comes: +0.8; the next chick is weighed on it.
        scene.Lift(186.4, tare: 0).Ramp(0.3, 0, -8.2).Hold(3, -8.2).Ramp(0.3, -8.2, 0.8).Hold(8, 0.8)
            .Scan("GR-0096").Hold(1, 0.8).Chick(312, tare: 0.8, seconds: 10);
        Assert.Equal("accepted", scene.Weighings[1].Verdict);
        Assert.InRange(scene.Weighings[1].Grams!.Value, 311.4m, 312.6m);
    }

    /// <summary>Under the mark of a tared scale, too, what is laid on a pan that was seen without its liner is the next liner.</summary>
    [Fact]
    public void A_fresh_towel_on_a_scale_that_was_tared_with_the_last_is_no_chick()
    {
        var scene = new Scene().Towel();
        scene.Line = (grams, moving) => Scene.HeaderComma(grams - 8.2, moving).Replace("GS", "NT", StringComparison.Ordinal);
        scene.Hold(3, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(186.4, seconds: 12).Lift(194.6, rest: 3).Ramp(0.3, 8.2, 0).Hold(3, 0).Ramp(0.3, 0, 9.5).Hold(2, 9.5)
            .Scan("CN-0321").Hold(12, 9.5).Chick(58.7, tare: 9.5, seconds: 20);
        Assert.Equal(["AM-0147", "CN-0321"], scene.Weighings.Select(each => each.Chick));
        Assert.All(scene.Weighings, each => Assert.Equal("accepted", each.Verdict));
        Assert.InRange(scene.Weighings[1].Grams!.Value, 58.4m, 59.0m);
    }

    [Fact]
    public void A_tub_that_the_scale_s_key_tared_is_not_gone_though_it_weighs_about_what_the_chick_should()
    {
        var scene = new Scene().Towel(187);
        scene.Line = (grams, moving) => Scene.HeaderComma(grams - 187, moving).Replace("GS", "NT", StringComparison.Ordinal);
        scene.Hold(1, 187).Scan("AM-0147").Hold(2, 187).Chick(186.4, tare: 187, seconds: 15);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 186.0m, 186.8m);
    }

    [Fact]
    public void What_lies_still_at_start_is_the_liner()
    {
        var scene = new Scene().Hold(3, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(186.4);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    [Fact]
    public void A_chick_found_at_start_has_no_tare_until_the_pan_was_seen_without_it()
    {
        var scene = new Scene().Hold(4, 194.6, 1.5).Scan("AM-0147").Hold(6, 194.6, 1.5);
        Assert.Equal(["no-tare"], scene.TheWeighing.Reasons);
        scene.Lift(194.6).Scan("GR-0096").Hold(1, 8.2).Chick(312);
        Assert.Equal("accepted", scene.Weighings[1].Verdict);
    }

    [Fact]
    public void The_tare_card_makes_what_lies_there_the_tare_and_gives_the_code_back()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Ramp(0.4, 8.2, 95).Hold(2, 95).Scan("!TARE").Hold(2, 95).Chick(186.4, tare: 95);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    [Fact]
    public void A_zero_that_creeps_is_followed()
    {
        var scene = new Scene().Towel();
        for (var i = 0; i < 60; i++)
            scene.Hold(1, 8.2 + i * 0.02);
        scene.Scan("AM-0147").Hold(1, 9.4).Chick(186.4, tare: 9.4);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    [Fact]
    public void A_still_hand_on_a_bare_pan_is_no_liner()
    {
        // The scale was tared by its key with the towel on, so that the pan looks bare.
        var scene = new Scene().Hold(3, 0).Scan("AM-0147").Ramp(0.5, 0, 112).Hold(3, 112).Ramp(0.2, 112, 186.4).Hold(10, 186.4, 0.5);
        Assert.DoesNotContain(scene.Weighings, weighing => weighing.Verdict == "accepted" && Math.Abs(weighing.Grams!.Value - 186.4m) > 0.6m);
    }

    [Fact]
    public void A_link_lost_at_rest_costs_nothing()
    {
        var scene = new Scene().Towel().Link(LinkChange.Down).Wait(20).Link(LinkChange.Up).Hold(2, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(186.4);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
    }

    [Theory]
    [InlineData(0.2)]
    [InlineData(0.3)]
    [InlineData(0.5)]
    public void A_liner_that_sways_slowly_is_tared_at_its_middle(double hertz)
    {
        // The phase at which the chick comes is another each time; at the crest 0.3 g are off, three times the band.
        for (var phase = 0; phase < 6; phase++)
        {
            var scene = new Scene(ledger: Scene.Nursery(("LB-0008", "2026-03-01", 23.4m))).Hold(2, 0).Ramp(0.4, 0, 12);
            for (var i = 0; i < 60 + 60 / hertz * phase / 6; i++)
                scene.Hold(0.1, 12 + 0.3 * Math.Sin(2 * Math.PI * hertz * i / 10));
            scene.Scan("LB-0008").Ramp(0.5, 12, 36.6).Hold(14, 36.6, 0.05).Ramp(0.4, 36.6, 12).Hold(3, 12);
            Assert.True(scene.TheWeighing.Verdict == "rejected" || Math.Abs(scene.TheWeighing.Grams!.Value - 24.6m) <= 0.1m, $"{hertz} Hz, {phase}: {scene.TheWeighing.Grams} g from {scene.TheWeighing.TareGrams} g");
        }
    }
}
