using CaptureAgent.Store.Schema;
using Microsoft.Data.Sqlite;
using Xunit;

namespace CaptureAgent.Store.Tests;

/// <summary>How feeds were told, what was taken, crops seen full, chores done.</summary>
public sealed class FeedingTests : IDisposable
{
    private static readonly DateTimeOffset At = new(2026, 3, 2, 5, 41, 0, TimeSpan.Zero);

    private static readonly DateOnly Day = new(2026, 3, 2);

    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void A_feed_keeps_the_way_in_which_it_was_told()
    {
        using var store = folder.Open();
        store.Add(Feed("brooder"));
        Assert.Equal("brooder", Assert.Single(store.Feeds(At)).Way);
        Assert.Throws<ArgumentException>(() => store.Add(Feed("guess")));
    }

    [Fact]
    public void A_feed_of_an_older_layout_was_told_by_card()
    {
        using (var raw = folder.Raw())
        {
            Migrations.Execute(raw, $"{Version1.Sql} {Version2.Sql} {Version3.Sql} {Version4.Sql} PRAGMA application_id = {Migrations.ApplicationId}; PRAGMA user_version = 4");
            Migrations.Execute(raw, "INSERT INTO feeds (id, chick, at, zone, day, station) VALUES (randomblob(16), 'AM-0147', 1, 'Etc/UTC', '2026-03-02', 's')");
        }

        using var store = folder.Open();
        Assert.Equal("card", Assert.Single(store.Feeds(DateTimeOffset.UnixEpoch)).Way);
    }

    [Fact]
    public void What_was_taken_stands_as_long_as_its_feed()
    {
        using var store = folder.Open();
        var (before, after, feed) = (Weighing(), Weighing(), Feed("card"));
        store.Add(before, null);
        store.Add(after, null);
        store.Add(feed);
        var intake = new IntakeRow(Guid.NewGuid(), feed.Id, before.Id, after.Id, At, "Etc/UTC", "s", 18_500, 150);
        store.Add(intake);
        store.Add(intake);
        Assert.Equal(intake, Assert.Single(store.Intakes(At)));
        store.Add(new UndoRow(Guid.NewGuid(), At, "Etc/UTC", feed.Id, "s"));
        Assert.Empty(store.Intakes(At));
    }

    [Fact]
    public void Marks_and_chores_are_read_back_until_they_are_taken_back()
    {
        using var store = folder.Open();
        var mark = new CropMarkRow(Guid.NewGuid(), "AM-0147", At, "Etc/UTC", Day, "s");
        store.Add(mark);
        Assert.Equal(mark, Assert.Single(store.CropMarks(At)));
        Assert.Empty(store.CropMarks(At.AddSeconds(1)));
        Assert.Equal(mark, Assert.Single(store.CropMarks("AM-0147", Day, Day)));
        Assert.Empty(store.CropMarks("AM-0148"));
        Assert.Empty(store.CropMarks(from: Day.AddDays(1)));
        Assert.Empty(store.CropMarks(to: Day.AddDays(-1)));
        var (first, second) = (new ChoreRow(Guid.NewGuid(), "wash", At, "Etc/UTC", "s"), new ChoreRow(Guid.NewGuid(), "wash", At.AddHours(5), "Etc/UTC", "s"));
        store.Add(first);
        store.Add(second);
        Assert.Equal([first, second], store.Chores(At));
        var seen = new ObservationRow(Guid.NewGuid(), "AM-0147", At, "Etc/UTC", Day, "weaning", "s");
        store.Add(seen);

        TakeBack(store, mark.Id);
        TakeBack(store, second.Id);
        TakeBack(store, seen.Id);
        Assert.Empty(store.CropMarks(At));
        Assert.Empty(store.CropMarks());
        Assert.Equal(first, Assert.Single(store.Chores(At)));
        Assert.Empty(store.Observations());
        Assert.Equal(mark, Assert.Single(store.History().CropMarks));
        Assert.Equal([mark.Id, second.Id, seen.Id], store.History().Undos.Select(undo => undo.Undone));
    }

    [Fact]
    public void A_batch_is_taken_back_whole_by_its_first_state_and_its_number_may_be_given_again()
    {
        using var store = folder.Open();
        BatchRow State(string state, DateTimeOffset at, DateTimeOffset mixed) =>
            new(Guid.NewGuid(), 2, Day, at, "Etc/UTC", "s", "probe", state, mixed, mixed.AddMinutes(20), null, null, false, null);
        var (begun, warm, later) = (State("unmeasured", At, At), State("warming", At.AddSeconds(9), At), State("unmeasured", At.AddHours(1), At.AddHours(1)));
        foreach (var row in (BatchRow[])[begun, warm, later])
            store.Add(row);
        TakeBack(store, begun.Id);
        Assert.Equal(later, Assert.Single(store.Batches(At)));
    }

    [Fact]
    public void The_newest_lags_of_each_probe_are_read_back_oldest_first()
    {
        using var store = folder.Open();
        ProbeLagRow Lag(string device, int hours) => new(Guid.NewGuid(), At.AddHours(hours), "Etc/UTC", "s", device, 5000, "0:1:1.6094:0.02");
        ProbeLagRow[] rows = [Lag("a", 0), Lag("b", 1), Lag("a", 2), Lag("a", 3)];
        foreach (var row in rows)
            store.Add(row);
        Assert.Equal(rows[1..], store.ProbeLags(2));
    }

    private static void TakeBack(CaptureStore store, Guid row) => store.Add(new UndoRow(Guid.NewGuid(), At, "Etc/UTC", row, "s"));

    [Theory]
    [InlineData("DELETE FROM chores")]
    [InlineData("UPDATE chores SET chore = 'pan'")]
    [InlineData("DELETE FROM crop_marks")]
    [InlineData("UPDATE crop_marks SET chick = 'X'")]
    [InlineData("DELETE FROM note_undos")]
    [InlineData("UPDATE note_undos SET at = 0")]
    [InlineData("DELETE FROM probe_lags")]
    [InlineData("UPDATE probe_lags SET lags = '?'")]
    public void Rows_are_only_ever_added(string sql)
    {
        using (var store = folder.Open())
        {
            store.Add(new ChoreRow(Guid.NewGuid(), "wash", At, "Etc/UTC", "s"));
            var mark = new CropMarkRow(Guid.NewGuid(), "AM-0147", At, "Etc/UTC", Day, "s");
            store.Add(mark);
            TakeBack(store, mark.Id);
            store.Add(new ProbeLagRow(Guid.NewGuid(), At, "Etc/UTC", "s", "probe", 5000, "0:1:1.6094:0.02"));
        }

        using var raw = folder.Raw();
        Assert.Contains("only ever added", Assert.Throws<SqliteException>(() => Migrations.Execute(raw, sql)).Message, StringComparison.Ordinal);
    }

    private static FeedRow Feed(string way) => new(Guid.NewGuid(), "AM-0147", At, "Etc/UTC", Day, 3, "in-range", "s", way);

    private static WeighingRow Weighing() => new(
        Guid.NewGuid(), "AM-0147", At, "Etc/UTC", Day, 186_400, 110, 8_200, Verdict.Rejected, ["already-weighed"], "r", 24, Origin.Captured, "s", "scale");
}
