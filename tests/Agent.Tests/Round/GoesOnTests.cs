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

    [Fact]
    public void A_liner_lay_under_a_strong_fan_when_the_agent_started()
    {
        var scene = new Scene(options => options.Devices[0].DivisionGrams = 0.5m) { Line = Halves };
        Fan(scene, 8, 43.9);
        scene.Scan("GR-0096");
        Fan(scene, 1, 43.9);
        scene.Ramp(0.4, 43.9, 355.9);
        Fan(scene, 20, 355.9);
        Assert.Equal(("GR-0096", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 311m, 313m);
    }

    // 1.25 g, with a beat of a third of a second.
    private static void Fan(Scene scene, double seconds, double grams)
    {
        for (var i = 0; i < seconds * 10; i++)
            scene.Hold(0.1, grams + 1.25 * Math.Sin(2 * Math.PI * 0.31 * i));
    }

    private static string Net(double grams, bool moving) => Scene.HeaderComma(grams, moving).Replace(",GS,", ",NT,", StringComparison.Ordinal);

    private static string Halves(double grams, bool moving) => string.Create(CultureInfo.InvariantCulture, $"{(moving ? "US" : "ST")},GS,+{Math.Round(2 * grams) / 2,8:F1}  g\r\n");
}
