using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>A chick that lies still on the bare pan is taken for the liner, until it is lifted.</summary>
public sealed class BarePanTests
{
    /// <summary>It lay so still that it was taken for the liner; its code came just after it was lifted.</summary>
    [Theory]
    [InlineData(0.6)]
    [InlineData(1.5)]
    public void A_code_just_after_a_chick_was_lifted_from_the_bare_pan_never_names_the_next(double late)
    {
        var scene = new Scene().Hold(2, 0).Ramp(0.5, 0, 58.7).Hold(10, 58.7, 0.02).Ramp(0.4, 58.7, 0).Hold(late, 0).Scan("CN-0321").Hold(2, 0)
            .Ramp(0.4, 0, 8.2).Hold(4, 8.2).Chick(57.5, seconds: 15).Lift(65.7, rest: 6);
        Assert.Equal(("CN-0321", "rejected"), (scene.Weighings[0].Chick, scene.Weighings[0].Verdict));
        Assert.Equal(["no-tare"], scene.Weighings[0].Reasons);
        Assert.DoesNotContain(scene.Weighings, each => each.Verdict == "accepted");
    }

    /// <summary>Nothing more came until it was lifted, and it weighs what the chick should.</summary>
    [Fact]
    public void A_sleeper_on_the_bare_pan_is_weighed_as_it_is_lifted()
    {
        var ledger = Scene.Nursery(("LB-0008", "2026-02-27", 18.6m), ("LB-0008", "2026-02-28", 20.7m), ("LB-0008", "2026-03-01", 23.0m));
        var scene = new Scene(ledger: ledger).Hold(2, 0).Scan("LB-0008").Ramp(0.5, 0, 25.3).Hold(9.5, 25.3).Ramp(0.4, 25.3, 0).Hold(4, 0);
        Assert.Equal(("LB-0008", "accepted"), (scene.TheWeighing.Chick, scene.TheWeighing.Verdict));
        Assert.InRange(scene.TheWeighing.Grams!.Value, 25.2m, 25.4m);
    }

    /// <summary>Of two weights no pace is known, and a towel may weigh as much.</summary>
    [Fact]
    public void What_is_lifted_so_soon_is_no_weight_of_a_chick_of_which_little_is_known()
    {
        var ledger = Scene.Nursery(("LB-0008", "2026-02-28", 6.6m), ("LB-0008", "2026-03-01", 7.3m));
        var scene = new Scene(ledger: ledger).Hold(2, 0).Scan("LB-0008").Ramp(0.5, 0, 8.2).Hold(9.5, 8.2).Ramp(0.4, 8.2, 0).Hold(4, 0);
        Assert.DoesNotContain(scene.Weighings, each => each.Verdict == "accepted");
    }
}
