using CaptureAgent.Agent.Events;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>Before the feed, once a morning, and the cards.</summary>
public sealed class FeedTests
{
    [Fact]
    public void A_feed_within_the_emptying_gap_makes_it_after_feed()
    {
        var scene = new Scene().Towel().Scan("!FED").Hold(1, 8.2).Scan("AM-0147").Hold(8, 8.2);
        Assert.Equal("AM-0147", Assert.Single(scene.Events.OfType<FeedEvent>()).Chick);
        scene.Scan("AM-0147").Chick(186.4);
        Assert.Equal(["after-feed"], scene.TheWeighing.Reasons);
    }

    [Theory]
    [InlineData(3.9, false)]
    [InlineData(4.1, true)]
    public void The_gap_for_a_chick_past_day_twenty_is_four_hours_across_the_start_of_the_day(double hours, bool accepted)
    {
        var scene = new Scene { Now = new DateTimeOffset(2026, 3, 2, 1, 0, 0, TimeSpan.Zero) }.Towel().Scan("!FED").Scan("AM-0147").Hold(1, 8.2);
        scene.Wait(hours * 3600).Hold(3, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(186.4);
        Assert.Equal(accepted ? "accepted" : "rejected", scene.TheWeighing.Verdict);
    }

    [Fact]
    public void A_feed_is_no_identity_for_a_weighing()
    {
        var scene = new Scene().Towel().Scan("!FED").Hold(1, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(186.4).Lift(194.6).Wait(4);
        Assert.Equal(["no-code"], scene.TheWeighing.Reasons);
    }

    [Fact]
    public void The_fed_card_right_after_an_unused_code_means_that_chick()
    {
        var scene = new Scene().Towel().Scan("CN-0321").Hold(9, 8.2).Scan("!FED");
        Assert.Equal("CN-0321", Assert.Single(scene.Events.OfType<FeedEvent>()).Chick);

        var used = new Scene().Towel().Scan("AM-0147").Chick(186.4).Scan("!FED").Hold(1, 194.6).Scan("GR-0096");
        Assert.Equal("GR-0096", Assert.Single(used.Events.OfType<FeedEvent>()).Chick);
    }

    [Fact]
    public void A_fed_card_without_a_chick_is_dropped_and_said_so()
    {
        var scene = new Scene().Hold(1, 0).Scan("!FED");
        var scanned = scene.Now;
        scene.Wait(61);
        var alert = Assert.Single(scene.Events.OfType<AlertEvent>());
        Assert.Equal(("fed-dropped", scanned.AddMinutes(1)), (alert.Alert, alert.At));
        Assert.Empty(scene.Events.OfType<FeedEvent>());
    }

    [Fact]
    public void A_second_weighing_that_agrees_is_a_quiet_confirmation()
    {
        var scene = Twice(186.4);
        Assert.Equal(["already-weighed"], scene.Weighings[1].Reasons);
        Assert.DoesNotContain(scene.Events.OfType<AlertEvent>(), alert => alert.Alert == "look");
    }

    [Fact]
    public void A_second_weighing_that_disagrees_asks_for_a_look()
    {
        var scene = Twice(189.4);
        Assert.Equal(["already-weighed"], scene.Weighings[1].Reasons);
        Assert.Equal("AM-0147", Assert.Single(scene.Events.OfType<AlertEvent>(), alert => alert.Alert == "look").Chick);
    }

    [Fact]
    public void Three_percent_above_the_morning_weight_is_after_a_feed_even_without_the_card() =>
        Assert.Equal(["after-feed", "already-weighed"], Twice(192.5).Weighings[1].Reasons);

    [Fact]
    public void An_imported_weight_of_today_is_today_s_morning_weight()
    {
        var scene = new Scene(ledger: Scene.Nursery(("AM-0147", "2026-03-02", 186.0m))).Towel().Scan("AM-0147").Chick(186.4);
        Assert.Equal(["already-weighed"], scene.TheWeighing.Reasons);
    }

    [Fact]
    public void The_reweigh_card_lets_a_new_weight_take_the_place_of_today_s()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4).Lift(194.6)
            .Scan("!REWEIGH").Hold(1, 8.2).Scan("AM-0147").Hold(6, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(187.6);
        Assert.Equal("accepted", scene.Weighings[1].Verdict);
        Assert.Equal(scene.Weighings[0].Id, scene.Weighings[1].Replaces);
    }

    [Fact]
    public void A_reweighing_taken_back_lets_the_first_weight_stand_again()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4).Lift(194.6).Scan("!REWEIGH").Hold(1, 8.2).Scan("AM-0147").Hold(1, 8.2)
            .Chick(187.6).Lift(195.8).Scan("!UNDO").Hold(6, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(186.4);
        Assert.Equal(scene.Weighings[1].Id, scene.Events.OfType<UndoEvent>().Single().UndoneId);
        Assert.Equal(["already-weighed"], scene.Weighings[2].Reasons);
    }

    [Fact]
    public void After_the_reweigh_card_a_load_without_a_code_is_the_chick_just_lifted()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4).Lift(194.6).Scan("!REWEIGH").Hold(2, 8.2).Chick(187.6);
        Assert.Equal("AM-0147", scene.Weighings[1].Chick);
        Assert.Equal(scene.Weighings[0].Id, scene.Weighings[1].Replaces);
    }

    [Fact]
    public void A_fed_chick_cannot_be_weighed_again_even_with_the_card()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4).Lift(194.6).Scan("!FED").Hold(1, 8.2).Scan("AM-0147").Hold(6, 8.2)
            .Scan("!REWEIGH").Hold(1, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(204.9);
        Assert.Equal("rejected", scene.Weighings[1].Verdict);
        Assert.Contains("after-feed", scene.Weighings[1].Reasons);
    }

    [Fact]
    public void Undo_takes_back_the_newest_of_the_day_and_the_chick_may_be_weighed_again()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4).Lift(194.6).Scan("!UNDO").Hold(1, 8.2);
        var undo = Assert.Single(scene.Events.OfType<UndoEvent>());
        Assert.Equal(("AM-0147", "weighing", scene.Weighings[0].Id), (undo.Chick, undo.Undone, undo.UndoneId));
        scene.Scan("AM-0147").Hold(1, 8.2).Chick(186.4);
        Assert.Equal("accepted", scene.Weighings[1].Verdict);
        Assert.Null(scene.Weighings[1].Replaces);
    }

    [Fact]
    public void Undo_of_a_feed_lifts_the_after_feed_rule()
    {
        var scene = new Scene().Towel().Scan("!FED").Hold(1, 8.2).Scan("AM-0147").Hold(6, 8.2).Scan("!UNDO").Hold(1, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(186.4);
        Assert.Equal("feed", Assert.Single(scene.Events.OfType<UndoEvent>()).Undone);
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
    }

    [Fact]
    public void Undo_with_nothing_to_take_back_says_so() =>
        Assert.Equal("nothing-to-undo", Assert.Single(new Scene().Scan("!UNDO").Events.OfType<AlertEvent>()).Alert);

    [Fact]
    public void Twin_scans_of_a_card_are_one()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4).Lift(194.6).Scan("GR-0096").Hold(1, 8.2).Chick(312).Lift(320.2)
            .Scan("!UNDO").Hold(1, 8.2).Scan("!UNDO").Hold(1, 8.2);
        Assert.Single(scene.Events.OfType<UndoEvent>());
    }

    private static Scene Twice(double second) =>
        new Scene().Towel().Scan("AM-0147").Chick(186.4).Lift(194.6).Scan("AM-0147").Hold(1, 8.2).Chick(second);
}
