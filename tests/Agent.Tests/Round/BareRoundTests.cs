using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>Chicks that are laid on the bare pan, without a liner, after their codes.</summary>
public sealed class BareRoundTests
{
    // Nothing is known of its weight.
    private const string Unknown = "XX-0001";

    [Fact]
    public void What_moves_as_only_an_animal_does_is_weighed_though_it_lay_still_for_a_moment()
    {
        var scene = new Scene().Hold(3, 0).Scan(Unknown).Hold(1, 0).Ramp(0.4, 0, 73.5).Hold(2.5, 73.5).Hold(30, 73.5, 1.2);
        Assert.Equal((Unknown, "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.Equal((Unknown, "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 73.2m, 73.8m);
    }

    [Fact]
    public void What_only_lies_there_may_be_a_liner_and_is_not_weighed()
    {
        var scene = new Scene().Hold(3, 0).Scan(Unknown).Hold(1, 0).Ramp(0.4, 0, 73.5).Hold(25, 73.5);
        Assert.Empty(scene.Weighings);
    }

    [Fact]
    public void Where_chicks_are_weighed_without_a_liner_one_that_only_lies_there_is_weighed_too()
    {
        var scene = new Scene().Hold(3, 0);
        foreach (var (code, grams) in new[] { ("AM-0147", 186.4), ("CN-0321", 58.7) })
            scene.Scan(code).Hold(1, 0).Chick(grams, tare: 0, seconds: 14).Lift(grams, 0, 4);
        scene.Scan(Unknown).Hold(1, 0).Ramp(0.4, 0, 73.5).Hold(25, 73.5);
        Assert.Equal(["accepted", "accepted", "accepted"], scene.Weighings.Select(each => each.Verdict));
        Assert.InRange(scene.Weighings[2].Grams!.Value, 73.2m, 73.8m);
    }
}
