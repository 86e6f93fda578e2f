using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Page.Live;
using Xunit;

namespace CaptureAgent.Page.Tests.Live;

public sealed class BoardTests
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private readonly Board board = new(new StationOptions { Station = "east-room", Devices = [new DeviceOptions { Id = "scale", Role = "scale", Dialect = "header-comma" }] }, "run1", Start);

    [Fact]
    public void A_weighing_goes_through_its_steps_and_stands_until_the_next_chick()
    {
        var steps = new List<string>();
        foreach (var station in (StationEvent[])
        [
            new TareEvent(Start, "scale", 8.2m, 0.05m), new ScanEvent(Start, "scanner", "AM-0147", "waits", null), new PlacedEvent(Start, "scale", null),
            Weighing("AM-0147", 186.4m), new LiftedEvent(Start, "scale", "AM-0147"), new TareEvent(Start, "scale", 8.2m, 0.05m),
        ])
        {
            board.Take(station);
            steps.Add($"{board.Situation.Pan.Step} {board.Situation.Pan.Chick}");
        }

        Assert.Equal(["tared ", "scanned AM-0147", "weighing AM-0147", "accepted AM-0147", "accepted AM-0147", "accepted AM-0147"], steps);
        Assert.Equal(186.4m, board.Situation.Pan.Grams);
    }

    [Fact]
    public void A_code_that_comes_after_the_chick_names_what_lies_there()
    {
        board.Take(new PlacedEvent(Start, "scale", null));
        board.Take(new ScanEvent(Start, "scanner", "AM-0147", "names", null));

        Assert.Equal(("weighing", "AM-0147"), (board.Situation.Pan.Step, board.Situation.Pan.Chick));
    }

    [Fact]
    public void A_finding_told_again_takes_the_place_of_the_older_and_ends_with_the_day()
    {
        board.Take(new FindingEvent(Start, "AM-0147", "loss", "look", "It lost 1 %."));
        board.Take(new FindingEvent(Start, "AM-0147", "loss", "red", "It lost 4 %."));
        Assert.Equal("red", Assert.Single(board.Situation.Findings).Severity);

        board.Take(new TareEvent(Start.AddDays(1), "scale", 8.2m, 0.05m));
        Assert.Empty(board.Situation.Findings);
    }

    [Fact]
    public void What_is_not_on_disk_is_never_shown_as_recorded()
    {
        board.Take(new ScanEvent(Start, "scanner", "AM-0147", "waits", null));
        board.Take(new AlertEvent(Start, "not-stored", "AM-0147", null, "The accepted weighing of AM-0147, 186.4 g, is not on disk yet."));
        Assert.Equal("not-stored", board.Situation.Pan.Step);

        board.Take(Weighing("AM-0147", 186.4m) with { StoredAt = Start.AddSeconds(9) });
        Assert.Equal("accepted", board.Situation.Pan.Step);
    }

    [Fact]
    public void What_is_lost_shows_its_weight_until_the_next_chick_so_that_it_can_be_written_down()
    {
        board.Take(new AlertEvent(Start, "lost", "AM-0147", null, "There is no room to keep it.") { Grams = 186.4m });

        Assert.Equal(("lost", "AM-0147", 186.4m), (board.Situation.Pan.Step, board.Situation.Pan.Chick, board.Situation.Pan.Grams));
    }

    [Fact]
    public void What_is_due_stands_until_it_is_written_down()
    {
        board.Take(new DueEvent(Start, "feed", "AM-0147", Start, "AM-0147 is due."));
        board.Take(new DueEvent(Start, "feed", "CN-0321", Start, "CN-0321 is due."));
        board.Take(new DueEvent(Start, "wash", null, null, "Wash the instruments."));
        board.Take(new DueEvent(Start.AddHours(1), "feed", "CN-0321", Start, "CN-0321 is due."));
        board.Take(new FeedEvent(Start, "AM-0147", null, null));
        board.Take(new ChoreEvent(Start, "wash"));

        Assert.Equal(("feed", "CN-0321"), Assert.Single(board.Situation.Dues) is var due ? (due.Due, due.Chick) : default);
    }

    [Fact]
    public void What_was_seen_of_the_chick_that_was_weighed_leaves_its_weight_standing()
    {
        board.Take(Weighing("AM-0147", 186.4m));
        board.Take(new ObservationEvent(Start, "AM-0147", "listless"));
        Assert.Equal(("noted", "listless", 186.4m), (board.Situation.Pan.Step, board.Situation.Pan.Text, board.Situation.Pan.Grams));

        board.Take(new CropEvent(Start, "CN-0321"));
        Assert.Equal(("noted", "CN-0321", null), (board.Situation.Pan.Step, board.Situation.Pan.Chick, board.Situation.Pan.Grams));
    }

    [Fact]
    public void The_review_of_the_morning_adds_to_what_was_told_and_changes_the_record_only_when_it_differs()
    {
        board.Take(new FindingEvent(Start, "AM-0147", "loss", "red", "Told at the weighing."));
        List<FindingSituation> found = [new(Start, "AM-0147", "loss", "red", "Of the review."), new(Start, "CN-0321", "stall", "look", "Of the review.")];
        board.Review(new DateOnly(2026, 3, 2), found);
        Assert.Equal(["Told at the weighing.", "Of the review."], board.Situation.Findings.Select(finding => finding.Text));

        var record = board.Situation.Record;
        board.Review(new DateOnly(2026, 3, 2), [.. found]);
        board.Review(new DateOnly(2026, 3, 1), []);
        Assert.Equal(record, board.Situation.Record);

        board.Take(new TareEvent(Start.AddDays(1), "scale", 8.2m, 0.05m));
        Assert.Empty(board.Situation.Findings);
    }

    private static WeighingEvent Weighing(string chick, decimal grams) =>
        new(Start, chick, grams, 0.11m, "accepted", [], null, 8.2m, 24, "scale");
}
