using System.Globalization;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>Whatever befell one weighing, the next chick is weighed.</summary>
public sealed class GoesOnTests
{
    [Fact]
    public void A_liner_that_was_changed_and_tared_by_the_scales_own_key()
    {
        // Net marks throughout: the old liner off, the new one on, and the key.
        var scene = new Scene { Line = Net }.Hold(6, 0).Scan("AM-0147").Hold(1, 0).Chick(186.4, tare: 0).Lift(186.4, 0, 3);
        scene.Ramp(0.4, 0, -56).Hold(2, -56).Ramp(0.5, -56, -35.7).Hold(3, -35.7).Hold(4, 0).Scan("GR-0096").Hold(1, 0).Chick(312, tare: 0).Lift(312, 0, 3);
        Assert.Equal(["accepted", "accepted"], scene.Weighings.Select(each => each.Verdict));
        Assert.Equal(0m, Math.Round(scene.Weighings[1].TareGrams!.Value, 1));
        Assert.InRange(scene.Weighings[1].Grams!.Value, 311.4m, 312.6m);
    }

    [Theory]
    [InlineData(25)]
    [InlineData(40)]
    public void Something_heavy_stayed_on_the_pan_when_the_chick_was_taken(double left)
    {
        // More than a lift may leave: the chick seems to lie there still.
        var scene = new Scene().Towel(seconds: 6).Scan("CN-0321").Hold(1, 8.2).Chick(58.7).Ramp(0.4, 66.9, 8.2 + left).Hold(8, 8.2 + left)
            .Scan("AM-0147").Hold(1, 8.2 + left).Chick(186.4, tare: 8.2 + left, seconds: 14);
        Assert.Equal(["accepted", "accepted"], scene.Weighings.Select(each => each.Verdict));
        Assert.InRange(scene.Weighings[1].Grams!.Value, 185.9m, 186.9m);
    }

    [Theory]
    [InlineData(3)]
    [InlineData(9)]
    public void Another_liner_took_the_code_and_stayed_when_the_chick_was_lifted(double seconds)
    {
        // The code came the moment the new liner was laid on the old one, and lay there as a load.
        var scene = new Scene().Towel(seconds: 6).Ramp(0.3, 8.2, 30).Hold(0.6, 30, 3).Scan("CN-0321").Ramp(0.4, 30, 88.7).Hold(1.5, 88.7, 2).Ramp(0.4, 88.7, 30).Hold(seconds, 30)
            .Scan("AM-0147").Hold(1.5, 30).Chick(186.4, tare: 30, seconds: 14).Lift(216.4, 30, 5).Scan("GR-0096").Hold(1, 30).Chick(312, tare: 30, seconds: 14);
        Assert.DoesNotContain(scene.Weighings, each => each is { Verdict: "accepted", Chick: "CN-0321" });
        Assert.Equal(("GR-0096", "accepted"), (scene.Weighings[^1].Chick, scene.Weighings[^1].Verdict));
        Assert.InRange(scene.Weighings[^1].Grams!.Value, 311.4m, 312.6m);
    }

    [Fact]
    public void A_liner_that_slipped_by_just_what_shows_takes_no_code()
    {
        // Between two readings of the least that is a load at all, after a touch.
        var scene = new Scene(options => options.Devices[0].DivisionGrams = 1m) { Line = Wholes }.Hold(2, 0).Ramp(0.4, 0, 11).Hold(5, 11).Scan("AM-0147").Hold(1, 11).Chick(186.4, tare: 11, seconds: 14).Lift(197.4, 11, 3);
        scene.Ramp(0.3, 11, 20).Ramp(0.3, 20, 14).Hold(0.5, 14);
        for (var i = 0; i < 6; i++)
            scene.Hold(0.3, 14).Hold(0.2, 13.4);
        scene.Scan("GR-0096").Hold(1, 14).Chick(312, tare: 14, seconds: 14);
        Assert.Equal(["accepted", "accepted"], scene.Weighings.Select(each => each.Verdict));
        Assert.Equal("GR-0096", scene.Weighings[1].Chick);
        Assert.InRange(scene.Weighings[1].Grams!.Value, 311m, 313m);
    }

    [Fact]
    public void A_liner_lay_under_a_strong_fan_when_the_agent_started()
    {
        var scene = new Scene(options => options.Devices[0].DivisionGrams = 0.5m) { Line = Halves };
        Fan(scene, 8, 43.9, 1.25, 0.31);
        scene.Scan("GR-0096");
        Fan(scene, 1, 43.9, 1.25, 0.31);
        scene.Ramp(0.4, 43.9, 355.9);
        Fan(scene, 20, 355.9, 1.25, 0.31);
        Assert.Equal(("GR-0096", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 311m, 313m);
    }

    /// <param name="beat">Cycles from one reading to the next.</param>
    private static void Fan(Scene scene, double seconds, double grams, double amplitude, double beat)
    {
        for (var i = 0; i < seconds * 10; i++)
            scene.Hold(0.1, grams + amplitude * Math.Sin(2 * Math.PI * beat * i));
    }

    private static string Net(double grams, bool moving) => Scene.HeaderComma(grams, moving).Replace(",GS,", ",NT,", StringComparison.Ordinal);

    private static string Halves(double grams, bool moving) => Rounded(grams, moving, 0.5);

    private static string Wholes(double grams, bool moving) => Rounded(grams, moving, 1);

    private static string Rounded(double grams, bool moving, double division)
    {
        var shown = Math.Round(grams / division) * division;
        return string.Create(CultureInfo.InvariantCulture, $"{(moving ? "US" : "ST")},GS,{(shown < 0 ? '-' : '+')}{Math.Abs(shown),8:F1}  g\r\n");
    }
}
