using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Agent.Tests.Round;

/// <summary>Feeds told by a scan, by the scale, for a brooder; what was taken; what is due.</summary>
public sealed class FeedWaysTests
{
    [Fact]
    public void Where_feeds_follow_weighings_the_chick_scanned_once_more_was_fed()
    {
        var scene = Weighed(follows: true).Hold(6, 8.2).Scan("AM-0147").Hold(1, 8.2);
        var feed = Assert.Single(scene.Events.OfType<FeedEvent>());
        Assert.Equal(("AM-0147", "scan"), (feed.Chick, feed.Way));

        // Scanned again it is to be weighed: the feed is on record.
        scene.Hold(6, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(204.9);
        Assert.Single(scene.Events.OfType<FeedEvent>());
        Assert.Equal(["after-feed", "already-weighed"], scene.Weighings[1].Reasons);
    }

    [Fact]
    public void Where_they_do_not_the_scan_names_the_next_load()
    {
        var scene = Weighed(follows: false).Hold(6, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(186.5);
        Assert.Empty(scene.Events.OfType<FeedEvent>());
        Assert.Equal(["already-weighed"], scene.Weighings[1].Reasons);
    }

    [Fact]
    public void Where_feeds_follow_weighings_the_reweigh_card_still_means_a_weighing()
    {
        var scene = Weighed(follows: true).Scan("!REWEIGH").Hold(6, 8.2).Scan("AM-0147").Hold(6, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(187.6);
        Assert.Empty(scene.Events.OfType<FeedEvent>());
        Assert.Equal(scene.Weighings[0].Id, scene.Weighings[1].Replaces);
    }

    [Fact]
    public void A_second_weighing_right_after_the_feed_tells_what_was_taken_with_its_uncertainty()
    {
        var scene = Weighed(follows: false).Scan("!FED").Hold(1, 8.2).Scan("AM-0147").Hold(6, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(204.9);
        Assert.Equal(["after-feed", "already-weighed"], scene.Weighings[1].Reasons);
        var intake = Assert.Single(scene.Events.OfType<IntakeEvent>());
        Assert.Equal(scene.Weighings[1].Grams - scene.Weighings[0].Grams, intake.Grams);
        var root = Math.Sqrt(Math.Pow((double)scene.Weighings[0].UncertaintyGrams!, 2) + Math.Pow((double)scene.Weighings[1].UncertaintyGrams!, 2));
        Assert.Equal(root, (double)intake.UncertaintyGrams, 3);
        Assert.Equal(scene.Events.OfType<FeedEvent>().Single().Id, intake.FeedId);
    }

    [Fact]
    public void The_card_may_also_come_after_the_second_weighing()
    {
        var scene = Weighed(follows: false).Scan("AM-0147").Hold(1, 8.2).Chick(204.9).Lift(213.1).Scan("!FED").Hold(1, 8.2).Scan("AM-0147");
        var intake = Assert.Single(scene.Events.OfType<IntakeEvent>());
        Assert.InRange(intake.Grams, 18, 19);
    }

    [Fact]
    public void Without_a_card_a_second_weighing_is_a_feed_only_where_feeds_follow_weighings()
    {
        Assert.Empty(Weighed(follows: false).Scan("AM-0147").Hold(1, 8.2).Chick(204.9).Events.OfType<FeedEvent>());

        var follows = Weighed(follows: true).Hold(4, 8.2).Chick(204.9, seconds: 3).Scan("AM-0147").Hold(12, 213.1, 0.4);
        Assert.Equal(["after-feed", "already-weighed"], follows.Weighings[1].Reasons);
        var feed = Assert.Single(follows.Events.OfType<FeedEvent>());
        Assert.Equal("weighing", feed.Way);
        Assert.Equal(feed.Id, Assert.Single(follows.Events.OfType<IntakeEvent>()).FeedId);
    }

    // Lighter than before, and heavier by 16 % of its weight: a crop holds a tenth.
    [Theory]
    [InlineData(184.2)]
    [InlineData(216.2)]
    public void A_difference_that_no_feed_makes_is_not_written_down(double after)
    {
        var scene = Weighed(follows: false).Scan("!FED").Hold(1, 8.2).Scan("AM-0147").Hold(6, 8.2).Scan("AM-0147").Hold(1, 8.2).Chick(after);
        Assert.Empty(scene.Events.OfType<IntakeEvent>());
        Assert.Equal("AM-0147", Assert.Single(scene.Events.OfType<AlertEvent>(), alert => alert.Alert == "intake-implausible").Chick);
    }

    [Fact]
    public void The_fed_card_and_a_brooder_s_code_feed_every_chick_in_it_and_one_undo_takes_all_back()
    {
        var scene = InBrooder().Scan("!FED").Hold(1, 8.2).Scan("brooder 3").Hold(1, 8.2);
        var feeds = scene.Events.OfType<FeedEvent>().ToList();
        Assert.Equal(["AM-0147", "AM-0148"], feeds.Select(feed => feed.Chick));
        Assert.All(feeds, feed => Assert.Equal("brooder", feed.Way));
        scene.Scan("!UNDO");
        Assert.Equal(feeds.Select(feed => feed.Id), scene.Events.OfType<UndoEvent>().Select(undo => undo.UndoneId));
    }

    [Fact]
    public void A_brooder_s_code_without_the_card_is_no_code() =>
        Assert.Equal("unreadable", InBrooder().Scan("brooder 3").Events.OfType<ScanEvent>().Last().Taken);

    [Fact]
    public void A_feed_for_a_weaned_chick_is_written_down_and_said()
    {
        var scene = new Scene(options => options.Feeding.Chicks.Add(new ChickPlanOptions { Chick = "AM-0147", Weaned = true })).Scan("!FED").Wait(1).Scan("AM-0147");
        Assert.Single(scene.Events.OfType<FeedEvent>());
        Assert.Equal("weaned", Assert.Single(scene.Events.OfType<AlertEvent>()).Alert);
    }

    [Theory]
    [InlineData(1, false)]
    [InlineData(4, true)]
    public void A_chick_whose_weaning_began_counts_as_weaned_once_nobody_has_fed_it_for_three_days(int days, bool weaned)
    {
        var scene = new Scene().Scan("!WEANING").Wait(1).Scan("AM-0147").Wait(days * 86_400).Scan("!FED").Wait(1).Scan("AM-0147");
        Assert.Equal(weaned, scene.Events.OfType<AlertEvent>().Any(alert => alert.Alert == "weaned"));
        Assert.Single(scene.Events.OfType<FeedEvent>());

        // Fed again, it is waited for again.
        scene.Wait(6).Scan("!FED").Wait(1).Scan("AM-0147").Wait(24 * 3600);
        Assert.Equal(weaned ? 1 : 0, scene.Events.OfType<AlertEvent>().Count(alert => alert.Alert == "weaned"));
        Assert.Contains(scene.Events.OfType<DueEvent>(), due => due.Due == "feed");
    }

    [Fact]
    public void A_brooder_s_weaned_chick_is_left_out_and_that_is_said()
    {
        var scene = InBrooder().Scan("!WEANING").Wait(1).Scan("AM-0148").Wait(4 * 86_400).Scan("!FED").Wait(1).Scan("brooder 3");
        Assert.Equal("AM-0147", Assert.Single(scene.Events.OfType<FeedEvent>()).Chick);
        Assert.Contains("AM-0148", scene.Events.OfType<ScanEvent>().Last().Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_fed_card_asks_who_was_fed() =>
        Assert.Contains("Who was fed", Assert.Single(new Scene().Scan("!FED").Events.OfType<ScanEvent>()).Text, StringComparison.Ordinal);

    [Fact]
    public void The_next_feed_is_told_when_it_is_due_and_again_when_it_is_late()
    {
        var scene = new Scene().Scan("!FED").Wait(1).Scan("AM-0147");
        var fed = scene.Now;
        scene.Wait(6 * 3600);
        var due = Assert.Single(scene.Events.OfType<DueEvent>());
        Assert.Equal(("feed", "AM-0147", fed.AddHours(5), fed.AddHours(5)), (due.Due, due.Chick, due.At, due.DueAt));
        var late = Assert.Single(scene.Events.OfType<AlertEvent>(), alert => alert.Alert == "feed-late");
        Assert.Equal(fed.AddHours(5.5), late.At);
    }

    [Fact]
    public void A_feed_taken_back_is_not_waited_for()
    {
        var scene = new Scene().Scan("!FED").Wait(1).Scan("AM-0147").Wait(6).Scan("!UNDO").Wait(6 * 3600);
        Assert.Empty(scene.Events.OfType<DueEvent>());
    }

    [Fact]
    public void What_was_due_before_the_station_listened_is_not_told()
    {
        var ledger = Scene.Nursery();
        var scene = new Scene(ledger: ledger);
        ledger.Add("AM-0147", new Feed(Guid.NewGuid(), new DateOnly(2026, 3, 1), scene.Now.AddHours(-14)));
        var core = new Scene(ledger: ledger).Hold(1, 0).Wait(3600);
        Assert.Empty(core.Events.OfType<DueEvent>());
        Assert.DoesNotContain(core.Events.OfType<AlertEvent>(), alert => alert.Alert == "feed-late");
    }

    private static Scene Weighed(bool follows) =>
        new Scene(options => options.FeedFollowsWeighing = follows).Towel().Scan("AM-0147").Chick(186.4).Lift(194.6);

    private static Scene InBrooder() => new(ledger: new Ledger(
        [
            new Chick("AM-0147", null, new DateOnly(2026, 2, 6), Brooder: "brooder 3"),
            new Chick("AM-0148", null, new DateOnly(2026, 2, 6), Brooder: "brooder 3"),
            new Chick("AM-0149", null, new DateOnly(2026, 2, 6), Brooder: "brooder 4"),
            new Chick("AM-0150", null, new DateOnly(2026, 2, 6), Brooder: "brooder 3", Left: new DateOnly(2026, 3, 1)),
        ],
        [], []));
}
