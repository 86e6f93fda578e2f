using System.Globalization;
using CaptureAgent.Agent.Events;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>One placing, one decision, while the chick is still on the pan.</summary>
public sealed class WeighingTests
{
    [Fact]
    public void A_chick_scanned_first_is_weighed_before_it_is_lifted()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Hold(1, 8.2).Chick(186.4);
        var weighing = scene.TheWeighing;
        Assert.Equal("accepted", weighing.Verdict);
        Assert.Equal("AM-0147", weighing.Chick);
        Assert.InRange(weighing.Grams!.Value, 186.0m, 186.8m);
        Assert.Equal(24, weighing.AgeDays);
        Assert.Equal(8.2m, Math.Round(weighing.TareGrams!.Value, 1));
        Assert.Empty(weighing.Reasons);
        Assert.Null(weighing.Remedy);
    }

    [Fact]
    public void A_chick_scanned_while_it_lies_there_is_weighed_too()
    {
        var scene = new Scene().Towel().Chick(58.7, 3, noise: 0.15).Scan("CN-0321").Hold(6, 66.9, 0.15);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 58.5m, 58.9m);
    }

    [Fact]
    public void The_lift_that_follows_adds_nothing()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4, 10).Lift(194.6).Wait(5);
        Assert.Single(scene.Weighings);
        Assert.Equal("AM-0147", scene.Events.OfType<LiftedEvent>().Single().Chick);
    }

    [Theory]
    [InlineData("stable")]
    [InlineData("unstable")]
    [InlineData("absent")]
    public void The_scale_s_own_stability_mark_does_not_change_the_weight(string mark)
    {
        var truth = Play((grams, moving) => Scene.HeaderComma(grams, moving), "header-comma");
        var other = mark switch
        {
            "stable" => Play((grams, _) => Scene.HeaderComma(grams, false), "header-comma"),
            "unstable" => Play((grams, _) => Scene.HeaderComma(grams, true), "header-comma"),
            _ => Play(SignValue, "sign-value"),
        };
        Assert.Equal("accepted", other.Verdict);
        Assert.InRange(Math.Abs(other.Grams!.Value - truth.Grams!.Value), 0, 2 * truth.UncertaintyGrams!.Value);

        static WeighingEvent Play(Func<double, bool, string> line, string dialect) =>
            new Scene(dialect: dialect) { Line = line }.Towel().Scan("AM-0147").Chick(186.4, 10).TheWeighing;
        static string SignValue(double grams, bool moving) => string.Create(
            CultureInfo.InvariantCulture, $"{(grams < -0.049 ? '-' : '+')}{Math.Abs(Math.Round(grams, 1)),9:F1} g  \r\n");
    }

    [Theory]
    [InlineData(0.4, 3, 0.0)]
    [InlineData(0.4, 3, 0.1)]
    [InlineData(0.4, 5, 0.05)]
    [InlineData(0.15, 4.5, 0.0)]
    [InlineData(0.65, 3, 0.0)]
    [InlineData(-0.1, 4, 0.05)]
    public void A_still_hand_on_the_chick_is_never_the_weight(double share, double seconds, double noise)
    {
        var held = 8.2 + (1 - share) * 186.4;
        var scene = new Scene().Towel().Scan("AM-0147")
            .Ramp(0.5, 8.2, held).Hold(seconds, held, noise).Ramp(0.2, held, 194.6).Hold(9, 194.6, 0.5);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.8m, 187.0m);
    }

    [Fact]
    public void What_lay_perfectly_still_and_light_before_the_load_may_have_been_a_second_towel()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Ramp(0.3, 8.2, 26.8).Hold(3, 26.8).Ramp(0.4, 26.8, 194.6).Hold(9, 194.6, 0.5);
        Assert.Equal(["no-tare"], scene.TheWeighing.Reasons);
    }

    [Fact]
    public void A_chick_without_history_under_a_still_hand_waits_for_the_hand_to_go()
    {
        var scene = new Scene(ledger: new([new("XX-0001", null, null)], [], [])).Towel().Scan("XX-0001")
            .Ramp(0.5, 8.2, 120).Hold(3, 120).Ramp(0.2, 120, 194.6).Hold(9, 194.6, 0.5);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.8m, 187.0m);
    }

    [Fact]
    public void A_hand_that_comes_back_before_the_lift_is_not_the_weight()
    {
        // Restless for six seconds, then held almost still for three, then lifted.
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4, 4, noise: 6).Hold(3, 210, 0.1).Lift(210);
        Assert.DoesNotContain(scene.Weighings, weighing => weighing.Verdict == "accepted" && Math.Abs(weighing.Grams!.Value - 186.4m) > 0.6m);
    }

    [Fact]
    public void Lifted_too_early_it_is_refused_and_says_what_to_do()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4, 1).Lift(194.6);
        Assert.Equal("rejected", scene.TheWeighing.Verdict);
        Assert.Contains(scene.TheWeighing.Reasons[0], (string[])["unsettled", "hand-contact"]);
        Assert.NotEmpty(scene.TheWeighing.Remedy!);
    }

    [Fact]
    public void A_chick_that_never_comes_to_rest_is_refused_while_it_lies_there()
    {
        var scene = new Scene().Towel().Scan("AM-0147");
        for (var i = 0; i < 30; i++)
            scene.Hold(1, 194.6 + 12 * Math.Sin(i * 1.3), 3);
        scene.Hold(20, 0.1 + 194.6, 0).Hold(0.1, 194.6);
        Assert.True(scene.Weighings.Count <= 1);
        Assert.All(scene.Weighings, weighing => Assert.True(weighing.Verdict == "rejected" || Math.Abs(weighing.Grams!.Value - 186.4m) < 1));
    }

    [Fact]
    public void Motion_without_end_is_unsettled_with_the_best_value()
    {
        var scene = new Scene().Towel().Scan("AM-0147");
        for (var i = 0; i < 60; i++)
            scene.Hold(1, 194.6 + 25 * Math.Sin(i * 0.9), 4);
        Assert.Equal(["unsettled"], scene.TheWeighing.Reasons);
        Assert.NotNull(scene.TheWeighing.Grams);
    }

    [Fact]
    public void An_empty_pan_gives_nothing()
    {
        var scene = new Scene().Hold(30, 0).Scan("AM-0147").Hold(30, 0);
        Assert.Empty(scene.Weighings);
    }

    [Fact]
    public void A_bump_on_the_bench_costs_no_code()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Hold(1, 8.2).Hold(0.1, 31).Hold(0.1, -9).Hold(0.1, 14).Hold(2, 8.2).Chick(186.4);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.Equal("AM-0147", scene.TheWeighing.Chick);
    }

    [Fact]
    public void Wing_flaps_are_left_out_whole()
    {
        var scene = new Scene().Towel().Scan("GR-0096").Chick(312, 2);
        for (var i = 0; i < 2; i++)
            scene.Hold(0.1, 520).Hold(0.1, 130).Hold(0.1, 480).Hold(0.1, 150.8).Hold(2.6, 320.2, 0.6);
        scene.Hold(5, 320.2, 0.6);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 311.1m, 312.9m);
    }

    [Fact]
    public void The_uncertainty_counts_two_readings_the_tare_and_the_scale_itself()
    {
        var calm = new Scene().Towel().Scan("AM-0147").Chick(186.4, noise: 0).TheWeighing;

        // JCGM 100: two roundings of 0.1 g, and 0.05 g of accuracy (OIML R 76-1, table 6, class II: half a division), all rectangular: sqrt(2 * 0.01/12 + 0.0025/3).
        Assert.InRange(calm.UncertaintyGrams!.Value, 0.050m, 0.060m);
        var rough = new Scene(options => options.Devices[0].AccuracyGrams = 0.5m).Towel().Scan("AM-0147").Chick(186.4, noise: 0).TheWeighing;
        Assert.InRange(rough.UncertaintyGrams!.Value, 0.28m, 0.30m);
    }
}
