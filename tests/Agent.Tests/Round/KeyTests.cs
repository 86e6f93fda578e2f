using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>The scale is tared by its own key, and does not say so: from one line to the next its liner weighs nothing.</summary>
public sealed class KeyTests
{
    private const double Liner = 26.0;

    [Fact]
    public void The_next_chick_is_no_liner_though_it_weighs_what_the_liner_did()
    {
        var scene = Tared();
        scene.Scan("LB-0008").Hold(2, 0);
        Rise(scene, 0, 27.9).Hold(20, 27.9, 0.15);
        Assert.Equal(("LB-0008", "accepted"), (scene.Weighings[^1].Chick, scene.Weighings[^1].Verdict));
        Assert.InRange(scene.Weighings[^1].Grams!.Value, 27.7m, 28.1m);
        Assert.InRange(scene.Weighings[^1].TareGrams!.Value, -0.1m, 0.1m);
    }

    [Fact]
    public void A_towel_that_is_taken_off_behind_the_filter_is_gone()
    {
        var scene = Weighed();
        Rise(scene, Liner, 0).Hold(3, 0);
        Rise(scene, 0, Liner).Hold(3, Liner);
        scene.Scan("LB-0008").Hold(2, Liner);
        Rise(scene, Liner, Liner + 27.9).Hold(20, Liner + 27.9, 0.15);
        Assert.Equal(("LB-0008", "accepted"), (scene.Weighings[^1].Chick, scene.Weighings[^1].Verdict));
        Assert.InRange(scene.Weighings[^1].Grams!.Value, 27.7m, 28.1m);
    }

    private static Scene Tared() => Weighed().Hold(4, 0);

    private static Scene Weighed()
    {
        var scene = new Scene(ledger: Scene.Nursery(("LB-0008", "2026-03-01", 26.8m))).Hold(2, 0);
        Rise(scene, 0, Liner).Hold(4, Liner);
        scene.Scan("CN-0321").Hold(1, Liner);
        Rise(scene, Liner, Liner + 58.7).Hold(15, Liner + 58.7, 0.3);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        return Rise(scene, Liner + 58.7, Liner).Hold(2, Liner);
    }

    // Behind a slow filter: within a gram of the end after a second.
    private static Scene Rise(Scene scene, double from, double to)
    {
        for (var i = 1; i <= 14; i++)
            scene.Hold(0.1, to + ((from - to) * Math.Exp(-i / 3.0)));
        return scene;
    }
}
