using CaptureAgent.Agent.Events;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>Who is on the pan.</summary>
public sealed class IdentityTests
{
    [Fact]
    public void A_code_waits_sixty_seconds_for_a_load_and_then_says_that_it_is_gone()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Hold(59, 8.2).Chick(186.4);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);

        var late = new Scene().Towel().Scan("AM-0147").Hold(61, 8.2);
        var alert = Assert.Single(late.Events.OfType<AlertEvent>(), alert => alert.Alert == "code-expired");
        Assert.Equal("AM-0147", alert.Chick);
        late.Chick(186.4).Lift(194.6).Wait(4);
        Assert.Equal(["no-code"], late.TheWeighing.Reasons);
        Assert.Null(late.TheWeighing.Chick);
    }

    [Fact]
    public void Before_a_load_comes_the_latest_code_counts() =>
        Assert.Equal("AM-0147", new Scene().Towel().Scan("GR-0096").Hold(1, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(186.4).TheWeighing.Chick);

    [Fact]
    public void A_different_code_while_the_load_lies_undecided_rejects_the_placing()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4, 1).Scan("GR-0096").Hold(10, 194.6, 0.4);
        Assert.Equal(["two-codes"], scene.TheWeighing.Reasons);
        Assert.Contains("GR-0096", scene.TheWeighing.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void The_same_code_again_while_it_lies_there_is_no_second_code()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Hold(1, 8.2).Scan("AM-0147").Chick(186.4, 4).Scan("AM-0147").Hold(6, 194.6, 0.4);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
    }

    [Fact]
    public void After_a_decision_a_code_belongs_to_the_next_placing()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4).Scan("GR-0096").Hold(2, 194.6, 0.4).Lift(194.6).Chick(312);
        Assert.Equal(["AM-0147", "GR-0096"], scene.Weighings.Select(weighing => weighing.Chick));
        Assert.All(scene.Weighings, weighing => Assert.Equal("accepted", weighing.Verdict));
    }

    [Fact]
    public void A_code_just_after_an_uncoded_animal_was_lifted_belongs_to_it()
    {
        var scene = new Scene().Towel().Chick(186.4).Lift(194.6, rest: 1.5).Scan("AM-0147").Hold(3, 8.2);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
        Assert.Equal("AM-0147", scene.TheWeighing.Chick);
        scene.Chick(312).Lift(320.2).Wait(4);
        Assert.Equal(["no-code"], scene.Weighings[1].Reasons);
    }

    [Fact]
    public void A_code_more_than_three_seconds_after_the_lift_is_for_the_next_load()
    {
        var scene = new Scene().Towel().Chick(312).Lift(320.2, rest: 5).Scan("AM-0147").Hold(1, 8.2).Chick(186.4);
        Assert.Equal(["no-code"], scene.Weighings[0].Reasons);
        Assert.Equal("AM-0147", scene.Weighings[1].Chick);
        Assert.Equal("accepted", scene.Weighings[1].Verdict);
    }

    [Fact]
    public void The_scanner_may_run_ahead_of_the_scale_by_half_a_second()
    {
        // The next chick's code is heard while the lines of the last one's lift are still on their way.
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4, 1).Scan("GR-0096").Lift(194.6).Hold(1, 8.2).Chick(312);
        Assert.Equal("AM-0147", scene.Weighings[0].Chick);
        Assert.Contains(scene.Weighings[0].Reasons[0], (string[])["unsettled", "hand-contact"]);
        Assert.Equal("GR-0096", scene.Weighings[1].Chick);
        Assert.Equal("accepted", scene.Weighings[1].Verdict);
    }

    [Fact]
    public void A_thing_that_lies_still_and_is_taken_away_uncoded_is_nothing()
    {
        var scene = new Scene().Towel().Ramp(0.2, 8.2, 40).Hold(6, 40).Ramp(0.2, 40, 8.2).Hold(5, 8.2);
        Assert.Empty(scene.Weighings);
    }

    [Fact]
    public void An_unregistered_code_is_kept_with_its_grams()
    {
        var scene = new Scene().Towel().Scan("ZZ-9999").Chick(186.4);
        Assert.Equal(["unknown-chick"], scene.TheWeighing.Reasons);
        Assert.InRange(scene.TheWeighing.Grams!.Value, 185.9m, 186.9m);
        Assert.Null(scene.TheWeighing.AgeDays);
    }

    [Theory]
    [InlineData("?", "unreadable")]
    [InlineData("!WHAT", "unreadable")]
    public void What_is_no_code_is_said(string line, string taken) =>
        Assert.Equal(taken, Assert.Single(new Scene().Hold(1, 0).Scan(line).Events.OfType<ScanEvent>()).Taken);

    [Fact]
    public void A_misread_check_character_is_caught()
    {
        var scene = new Scene(options => options.Codes.Check = "mod11-2").Hold(1, 0).Scan("07940").Hold(6, 0).Scan("07941");
        Assert.Equal(["waits", "misread"], scene.Events.OfType<ScanEvent>().Select(scan => scan.Taken));
    }
}
