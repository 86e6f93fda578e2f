using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>A chick that is named only after its lift was weighed while it lay there: what came after it had settled takes nothing from that.</summary>
public sealed class LateCodeTests
{
    [Fact]
    public void A_hand_that_came_back_before_the_lift_takes_nothing_from_a_weight_that_was_known()
    {
        var scene = new Scene().Towel(seconds: 6).Chick(186.4, seconds: 12).Ramp(0.3, 194.6, 187).Hold(3, 187, 0.3).Lift(187, rest: 1.5).Scan("AM-0147").Hold(2, 8.2);
        Assert.Equal(("AM-0147", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    [Fact]
    public void A_code_that_comes_while_the_chick_is_being_lifted_names_what_was_weighed()
    {
        var scene = new Scene().Towel(seconds: 6).Chick(186.4, seconds: 12).Ramp(0.4, 194.6, 60).Scan("AM-0147").Ramp(0.2, 60, 8.2).Hold(3, 8.2);
        Assert.Equal(("AM-0147", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
    }

    [Fact]
    public void One_that_had_not_settled_by_then_is_refused()
    {
        var scene = new Scene().Towel(seconds: 6).Chick(186.4, seconds: 2).Ramp(0.3, 194.6, 187).Hold(3, 187, 0.3).Lift(187, rest: 1.5).Scan("AM-0147").Hold(2, 8.2);
        Assert.Equal("rejected", scene.TheWeighing.Verdict);
    }
}
