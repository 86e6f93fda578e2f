using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>A code waits for its chick: what is no chick uses up none.</summary>
public sealed class KeptCodeTests
{
    [Theory]
    [InlineData(8.2, 219.9)]
    [InlineData(148.9, 219.9)]
    [InlineData(219.9, 148.9)]
    public void A_liner_that_is_changed_for_a_tub_behind_a_slow_filter_leaves_the_code_to_the_chick(double liner, double tub)
    {
        // After the lift: four seconds from liner to tub, and the filter shows the bare pan for no longer than a blink.
        var scene = new Scene().Towel(liner, seconds: 6).Scan("AM-0147").Hold(1, liner).Chick(186.4, tare: liner).Ramp(0.6, liner + 186.4, liner + 0.4).Hold(0.3, liner + 0.3);
        foreach (var share in Tail(seconds: 1.9))
            scene.Hold(0.1, liner * share);
        scene.Hold(0.1, 0.3);
        foreach (var share in Tail(seconds: 2.6))
            scene.Hold(0.1, tub * (1 - share));
        scene.Scan("GR-0096").Hold(2.3, tub).Chick(312, tare: tub);
        Assert.Equal(["accepted", "accepted"], scene.Weighings.Select(each => each.Verdict));
        Assert.InRange(scene.Weighings[1].Grams!.Value, 311.4m, 312.6m);
    }

    [Fact]
    public void A_chick_that_lies_down_before_its_changed_liner_lay_still_is_not_weighed_from_the_old_one()
    {
        var scene = new Scene().Towel(148.9, seconds: 6).Scan("AM-0147").Hold(1, 148.9).Chick(186.4, tare: 148.9).Ramp(0.4, 335.3, 0.2).Hold(0.2, 0.2)
            .Ramp(0.3, 0.2, 219.9).Hold(0.2, 219.9, 6).Scan("GR-0096").Chick(312, tare: 219.9, seconds: 20);
        Assert.Equal("accepted", scene.Weighings[0].Verdict);
        Assert.All(scene.Weighings.Skip(1), each => Assert.Equal("rejected", each.Verdict));
    }

    [Fact]
    public void A_hand_that_wipes_the_liner_takes_no_code()
    {
        var scene = new Scene().Towel(seconds: 6).Ramp(0.3, 8.2, 20).Ramp(0.5, 20, 8.4).Hold(1.4, 8.3).Scan("AM-0147").Hold(3, 8.3).Chick(186.4, tare: 8.3);
        Assert.Equal(("AM-0147", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    [Fact]
    public void A_hand_that_straightens_the_liner_uses_up_no_code()
    {
        var scene = new Scene().Towel(seconds: 6).Scan("AM-0147").Hold(1, 8.2).Ramp(0.3, 8.2, 20).Ramp(0.5, 20, 8.2).Hold(3, 8.2).Chick(186.4);
        Assert.Equal(("AM-0147", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    [Fact]
    public void What_a_slow_filter_still_shows_of_the_chick_before_uses_up_no_code()
    {
        // One pole of half a second: the tub's level is known from its tail before the readings have come down to it.
        const double Tub = 210.1;
        var scene = new Scene().Towel(Tub, 6).Scan("AM-0147").Hold(1, Tub).Chick(186.4, tare: Tub).Ramp(0.6, Tub + 186.4, Tub + 80);
        for (var passed = 0.125; passed < 2.6; passed += 0.125)
            scene.Say(Scene.HeaderComma(Math.Round(Tub + 80 * Math.Exp(-passed / 0.54), 1), moving: true), 0.125);
        scene.Scan("GR-0096");
        for (var passed = 2.6; passed < 4.6; passed += 0.125)
            scene.Say(Scene.HeaderComma(Math.Round(Tub + 80 * Math.Exp(-passed / 0.54), 1), moving: true), 0.125);
        scene.Chick(312, tare: Tub);
        Assert.Equal(["accepted", "accepted"], scene.Weighings.Select(each => each.Verdict));
        Assert.InRange(scene.Weighings[1].Grams!.Value, 311.4m, 312.6m);
    }

    // What is left of a step behind a filter of second order.
    private static IEnumerable<double> Tail(double seconds)
    {
        const double Constant = 0.22;
        for (var passed = 0.1; passed <= seconds; passed += 0.1)
            yield return (1 + passed / Constant) * Math.Exp(-passed / Constant);
    }
}
