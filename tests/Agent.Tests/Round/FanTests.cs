using CaptureAgent.Agent.Round;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>A fan that comes up while the round is on: what lies there beats, but it is no animal, and its level is the middle of the beat.</summary>
public sealed class FanTests
{
    private const string Code = "CN-0321";

    [Theory]
    [InlineData(0.25)]
    [InlineData(0.4)]
    public void A_tub_that_lay_still_before_it_beat_is_not_the_chick_whose_code_waits(double amplitude)
    {
        const double Tub = 51.0;
        var scene = new Scene(ledger: Known()).Towel(Tub, 4);
        Beat(scene, 6, Tub, amplitude, 1.3).Scan(Code);
        Beat(scene, 5, Tub, amplitude, 1.3);
        Assert.Empty(scene.Weighings);
        scene.Chick(58.7, tare: Tub, seconds: 20);
        Assert.Equal((Code, "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 58.4m, 59.0m);
    }

    [Fact]
    public void A_chick_that_wakes_and_weighs_what_it_should_is_weighed_though_it_lay_as_still_as_a_thing()
    {
        var scene = new Scene(ledger: Known()).Hold(2, 0).Scan(Code).Hold(1, 0).Ramp(0.4, 0, 58.7).Hold(4, 58.7).Hold(15, 58.7, 0.4);
        Assert.Equal((Code, "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 58.4m, 59.0m);
    }

    [Fact]
    public void What_its_droppings_weigh_is_in_the_next_tare_though_the_fan_came_up_under_it()
    {
        var scene = new Scene().Towel(10.2).Scan("AM-0147").Chick(186.4, tare: 10.2, seconds: 12).Lift(196.6, 10.2, 0.1).Swing(6, 13.1, 0.4);
        scene.Scan(Code).Swing(2, 13.1, 0.4).Chick(58.7, tare: 13.1, seconds: 20);
        Assert.Equal(["accepted", "accepted"], scene.Weighings.Select(each => each.Verdict));
        Assert.InRange(scene.Weighings[1].TareGrams!.Value, 13.0m, 13.2m);
        Assert.InRange(scene.Weighings[1].Grams!.Value, 58.5m, 58.9m);
    }

    [Theory]
    [InlineData(0.45)]
    [InlineData(0.6)]
    [InlineData(1.1)]
    public void The_crest_of_a_beat_is_no_tare_though_it_is_as_still_as_the_pan_was(double hertz)
    {
        var scene = new Scene().Towel(5.3, 3);
        Beat(scene, 8, 5.3, 0.16, hertz).Scan("LB-0008").Hold(0.2, 5.45).Chick(24.6, tare: 5.3, seconds: 20, noise: 0.15);
        Assert.InRange(scene.TheWeighing.TareGrams!.Value, 5.24m, 5.36m);
    }

    [Theory]
    [InlineData(0.6, 0.9)]
    [InlineData(0.8, 1.1)]
    public void Crest_and_trough_of_a_strong_beat_are_no_tares_one_after_the_other(double amplitude, double hertz)
    {
        var scene = new Scene().Towel(5.3, 4);
        Beat(scene, 9, 5.3, amplitude, hertz).Scan("LB-0008");
        Beat(scene, 1.5, 5.3, amplitude, hertz, from: 90).Chick(24.6, tare: 5.3, seconds: 20, noise: 0.15);
        Assert.InRange(scene.TheWeighing.TareGrams!.Value, 5.2m, 5.4m);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 24.4m, 24.8m);
    }

    [Theory]
    [InlineData(0.8)]
    [InlineData(1.3)]
    public void The_middle_of_a_strong_beat_that_came_up_under_a_chick_is_the_next_tare_droppings_and_all(double hertz)
    {
        var scene = new Scene().Towel(10.2).Scan("AM-0147").Chick(186.4, tare: 10.2, seconds: 12).Lift(196.6, 13.1, 0.1);
        Beat(scene, 8, 13.1, 0.9, hertz).Scan(Code);
        Beat(scene, 2, 13.1, 0.9, hertz, from: 80).Chick(58.7, tare: 13.1, seconds: 20);
        Assert.Equal(["AM-0147", Code], scene.Weighings.Select(each => each.Chick));
        Assert.Equal(["accepted", "accepted"], scene.Weighings.Select(each => each.Verdict));
        Assert.InRange(scene.Weighings[1].TareGrams!.Value, 12.9m, 13.3m);
    }

    [Theory]
    [InlineData(0.8)]
    [InlineData(1.2)]
    public void The_crest_of_a_beat_whose_trough_was_the_tare_takes_no_code(double amplitude)
    {
        var scene = new Scene().Towel(155, 4).Scan("AM-0147").Chick(186.4, tare: 155, seconds: 12).Lift(341.4, 155 - amplitude, 0.1).Hold(0.6, 155 - amplitude);
        Beat(scene, 6, 155, amplitude, 1.3, from: -2).Scan(Code);
        Beat(scene, 5, 155, amplitude, 1.3, from: 58).Chick(58.7, tare: 155, seconds: 20);
        Assert.Equal(["AM-0147", Code], scene.Weighings.Select(each => each.Chick));
        Assert.InRange(scene.Weighings[1].Grams!.Value, 58.5m, 58.9m);
    }

    /// <param name="from">Tenths of a second since the beat's middle.</param>
    private static Scene Beat(Scene scene, double seconds, double grams, double amplitude, double hertz, int from = 0)
    {
        for (var i = from; i < from + seconds * 10; i++)
            scene.Hold(0.1, grams + (amplitude * Math.Sin(2 * Math.PI * hertz * i / 10)));
        return scene;
    }

    // Weights enough to tell what it should weigh today.
    private static Ledger Known() => Scene.Nursery((Code, "2026-02-25", 43.6m), (Code, "2026-02-26", 46.2m), (Code, "2026-02-27", 49.1m));
}
