using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Hygiene;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>One card takes back the newest weighing or feed of the day, or what another card has just written down.</summary>
public sealed class UndoTests
{
    [Fact]
    public void A_crop_seen_full_by_mistake_is_taken_back_and_the_chick_has_its_morning_weight()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Hold(6, 8.2).Scan("!CROP").Hold(6, 8.2).Scan("!UNDO").Hold(6, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(186.4);
        var undo = Assert.Single(scene.Events.OfType<UndoEvent>());
        Assert.Equal(("AM-0147", "crop", scene.Events.OfType<CropEvent>().Single().Id), (undo.Chick, undo.Undone, undo.UndoneId));
        Assert.Equal("accepted", scene.TheWeighing.Verdict);
    }

    [Fact]
    public void Of_two_marks_the_first_stands_when_the_second_is_taken_back()
    {
        var scene = new Scene().Towel().Scan("!CROP").Hold(6, 8.2).Scan("AM-0147").Hold(6, 8.2).Scan("!CROP").Hold(6, 8.2).Scan("AM-0147").Hold(6, 8.2)
            .Scan("!UNDO").Hold(6, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(186.4);
        Assert.Equal(["after-feed"], scene.TheWeighing.Reasons);
    }

    [Fact]
    public void An_observation_is_taken_back_and_with_the_weaning_its_consequence()
    {
        var ledger = Scene.Nursery();
        var scene = new Scene(ledger: ledger).Hold(1, 0).Scan("!WEANING").Hold(1, 0).Scan("AM-0147").Hold(1, 0);
        Assert.Equal(new DateOnly(2026, 3, 2), ledger.WeaningOf("AM-0147"));
        var undo = Assert.Single(scene.Scan("!UNDO").Events.OfType<UndoEvent>());
        Assert.Equal(("AM-0147", "observation", "weaning"), (undo.Chick, undo.Undone, undo.Observation));
        Assert.Null(ledger.WeaningOf("AM-0147"));
    }

    [Fact]
    public void A_chore_is_taken_back_and_is_due_again()
    {
        var ledger = Scene.Nursery();
        var scene = new Scene(ledger: ledger).Hold(1, 0).Scan("!WASHED").Hold(6, 0).Scan("!UNDO");
        var undo = Assert.Single(scene.Events.OfType<UndoEvent>());
        Assert.Equal((null, "chore", "wash"), (undo.Chick, undo.Undone, undo.Chore));
        Assert.Null(ledger.LastDone(Chore.Wash));
    }

    [Fact]
    public void It_goes_backwards_through_the_day()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4).Lift(194.6).Scan("!FED").Hold(1, 8.2).Scan("AM-0147").Hold(6, 8.2)
            .Scan("!ACTIVE").Hold(1, 8.2).Scan("AM-0147").Hold(6, 8.2).Scan("!WASHED").Hold(1, 8.2);
        for (var i = 0; i < 5; i++)
            scene.Scan("!UNDO").Hold(6, 8.2);
        Assert.Equal(["chore", "observation", "feed", "weighing"], scene.Events.OfType<UndoEvent>().Select(undo => undo.Undone));
        Assert.Equal("nothing-to-undo", scene.Events.OfType<AlertEvent>().Last().Alert);
    }

    [Fact]
    public void A_minute_after_another_card_it_is_the_weighing_again_that_is_taken_back()
    {
        var scene = new Scene().Towel().Scan("AM-0147").Chick(186.4).Lift(194.6).Scan("!WASHED").Hold(61, 8.2).Scan("!UNDO");
        Assert.Equal("weighing", Assert.Single(scene.Events.OfType<UndoEvent>()).Undone);
    }

    [Fact]
    public void What_was_written_down_on_another_day_stays()
    {
        var scene = new Scene { Now = new DateTimeOffset(2026, 3, 2, 2, 50, 0, TimeSpan.Zero) }.Scan("!CROP").Hold(1, 0).Scan("AM-0147").Wait(1200).Hold(1, 0).Scan("!UNDO");
        Assert.Empty(scene.Events.OfType<UndoEvent>());
        Assert.Contains(scene.Events.OfType<AlertEvent>(), alert => alert.Alert == "nothing-to-undo");
    }
}
