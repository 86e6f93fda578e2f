using CaptureAgent.Store.Schema;
using Xunit;

namespace CaptureAgent.Store.Tests;

/// <summary>How chicks moved at their weighings: layout 10.</summary>
public sealed class MotionTests : IDisposable
{
    private static readonly Evidence Still = new("samples/2", new byte[] { 1, 2, 3 });

    private static readonly Evidence Moved = Still with { Motion = new EvidenceMotion(120_000, 30_000, 21_000) };

    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void What_was_written_is_read_back_oldest_first_from_a_day_on()
    {
        var (older, newer) = (Rows.Accepted("AM-0147", 177.5m, Rows.Monday.AddDays(-1)), Rows.Accepted("AM-0147", 186.4m));
        using (var store = folder.Open())
        {
            store.Add(newer, Moved);
            store.Add(older, Moved with { Motion = new EvidenceMotion(1, 2, 3) });
            store.Add(Rows.Accepted("CN-0321", 58.7m), Still);
            store.Add(Rows.Rejected("GR-0096", 300, "unsettled"), Moved);
        }

        using var again = folder.Open();
        Assert.Equal([new MotionRow(older.Id, "AM-0147", older.Day, "scale", 177_500, new EvidenceMotion(1, 2, 3)), new MotionRow(newer.Id, "AM-0147", newer.Day, "scale", 186_400, Moved.Motion!)],
            again.Motions(Rows.Monday.AddDays(-1)));
        Assert.Equal(newer.Id, Assert.Single(again.Motions(Rows.Monday)).Weighing);
        Assert.Equal(Still.Samples.ToArray(), again.EvidenceOf(newer.Id)!.Samples.ToArray());
        again.Verify();
    }

    [Fact]
    public void A_weighing_that_was_taken_back_or_gave_way_tells_nothing()
    {
        using var store = folder.Open();
        var (undone, replaced) = (Rows.Accepted("AM-0147", 186.4m), Rows.Accepted("CN-0321", 58.7m));
        store.Add(undone, Moved);
        store.Add(replaced, Moved);
        store.Add(Rows.Undo(undone.Id));
        store.Add(Rows.Accepted("CN-0321", 59, replaces: replaced.Id), null);
        Assert.Empty(store.Motions(Rows.Monday));
    }

    [Fact]
    public void A_file_of_the_layout_before_keeps_its_evidence_and_gets_the_columns()
    {
        using (var raw = folder.Raw())
        {
            foreach (var (sql, version) in ((string, int)[])[(Version1.Sql, 1), (Version2.Sql, 2), (Version3.Sql, 3), (Version4.Sql, 4), (Version5.Sql, 5), (Version6.Sql, 6), (Version7.Sql, 7), (Version8.Sql, 8), (Version9.Sql, 9)])
                Migrations.Execute(raw, $"{sql}; PRAGMA application_id = {Migrations.ApplicationId}; PRAGMA user_version = {version}");
        }

        using var store = folder.Open();
        store.Add(Rows.Accepted("AM-0147", 186.4m), Moved);
        Assert.Equal(Moved.Motion, Assert.Single(store.Motions(Rows.Monday)).Motion);
        Assert.Equal(Migrations.Latest, store.Read("test", db => Migrations.Number(db.Connection, "PRAGMA user_version")));
    }
}
