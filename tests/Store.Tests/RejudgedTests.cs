using CaptureAgent.Store.Csv;
using CaptureAgent.Store.Schema;
using Microsoft.Data.Sqlite;
using Xunit;

namespace CaptureAgent.Store.Tests;

/// <summary>Rows that were judged again, and the checks of the scales: the layouts 2 and 3.</summary>
public sealed class RejudgedTests : IDisposable
{
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    private static WeighingRow Again(WeighingRow old, long milligrams) =>
        old with { Id = Guid.NewGuid(), Milligrams = milligrams, Origin = Origin.Rejudged, Replaces = old.Id };

    [Fact]
    public void A_file_of_the_first_layout_keeps_every_row_reference_and_trigger()
    {
        var (first, second) = (Guid.NewGuid(), Guid.NewGuid());
        using (var raw = folder.Raw())
        {
            Migrations.Execute(raw, $"{Version1.Sql} PRAGMA application_id = {Migrations.ApplicationId}; PRAGMA user_version = 1");
            string Key(Guid id) => $"x'{Convert.ToHexString(id.ToByteArray(bigEndian: true))}'";
            Migrations.Execute(raw, $"""
                INSERT INTO weighings (seq, id, chick, at, zone, day, milligrams, verdict, reasons, origin, station, replaces)
                VALUES (3, {Key(first)}, 'AM-0147', 1, 'Etc/UTC', '2026-03-01', 180000, 'accepted', '', 'captured', 's', NULL),
                       (7, {Key(second)}, 'AM-0147', 2, 'Etc/UTC', '2026-03-01', 181000, 'accepted', '', 'captured', 's', {Key(first)});
                INSERT INTO undos (id, at, zone, weighing, station) VALUES (randomblob(16), 3, 'Etc/UTC', {Key(second)}, 's');
                INSERT INTO evidence VALUES (3, 'samples/1', 'brotli', 0, x'06');
                """);
        }

        using (var store = folder.Open())
        {
            Assert.Equal([(first, WeighingState.Stands, 3L), (second, WeighingState.TakenBack, 7L)], store.AllWeighings().Select(stored => (stored.Row.Id, stored.State, stored.Arrival)));
            Assert.Equal("samples/1", store.EvidenceOf(first)!.Format);
            store.Add(Rows.Accepted("CN-0321", 58), null);
            Assert.Equal(8, store.AllWeighings("CN-0321").Single().Arrival);
            store.Verify();
            Assert.Throws<ArgumentException>(() => store.Add(Rows.Undo(Guid.NewGuid())));
            Assert.Equal(1, store.Read("test", db => Migrations.Number(db.Connection, "PRAGMA foreign_keys")));
        }

        using var after = folder.Raw();
        Assert.Equal(Migrations.Latest, Migrations.Number(after, "PRAGMA user_version"));
        Assert.Equal(0, Migrations.Number(after, "SELECT count(*) FROM pragma_foreign_key_check"));
        Assert.Throws<SqliteException>(() => Migrations.Execute(after, "DELETE FROM weighings"));
        Assert.Throws<SqliteException>(() => Migrations.Execute(after, "UPDATE weighings SET day = '2026-03-03'"));
    }

    [Fact]
    public void A_file_with_a_broken_reference_is_not_migrated()
    {
        using var raw = folder.Raw();
        Migrations.Execute(raw, $"{Version1.Sql} PRAGMA user_version = 1; PRAGMA foreign_keys = OFF; INSERT INTO evidence VALUES (99, 'samples/1', 'brotli', 0, x'06')");
        Assert.Throws<SqliteException>(() => Migrations.Apply(raw));
        Assert.Equal(1, Migrations.Number(raw, "PRAGMA user_version"));
        Assert.Equal(0, Migrations.Number(raw, "SELECT count(*) FROM sqlite_schema WHERE name = 'weighings_new'"));
    }

    [Fact]
    public void A_row_judged_again_stands_in_the_place_of_the_old_with_its_evidence()
    {
        using var store = folder.Open();
        var row = Rows.Accepted("AM-0147", 190);
        store.Add(row, new("samples/2", new byte[] { 1, 2 }));
        var once = Again(row, 186_000);
        var twice = Again(once, 186_400);
        store.Rejudge([once]);
        store.Rejudge([twice]);

        Assert.Equal([twice.Id], store.Weighings().Select(each => each.Id));
        Assert.Equal(3, store.AllWeighings().Count);
        Assert.Equal(new byte[] { 1, 2 }, store.EvidenceOf(twice.Id)!.Samples.ToArray());
        using var text = new StringWriter();
        CsvExport.Weights(store, text);
        Assert.Contains("186.400", text.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("190.000", text.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Taking_back_a_row_judged_again_takes_back_the_weighing()
    {
        using var store = folder.Open();
        var row = Rows.Accepted("AM-0147", 190);
        store.Add(row, null);
        var again = Again(row, 186_400);
        store.Rejudge([again]);
        store.Add(Rows.Undo(again.Id));
        Assert.Empty(store.Weighings());
        Assert.Equal([WeighingState.Replaced, WeighingState.TakenBack], store.AllWeighings().Select(stored => stored.State));
    }

    [Fact]
    public void All_rows_are_written_or_none()
    {
        using var store = folder.Open();
        var row = Rows.Accepted("AM-0147", 190);
        store.Add(row, null);
        Assert.Throws<ArgumentException>(() => store.Rejudge([Again(row, 186_400), Again(row, 186_500)]));
        Assert.Throws<ArgumentException>(() => store.Rejudge([row with { Id = Guid.NewGuid() }]));
        Assert.Throws<ArgumentException>(() => store.Rejudge([Again(row, 1) with { Replaces = Guid.NewGuid() }]));
        Assert.Single(store.AllWeighings());
    }

    [Fact]
    public void The_history_has_what_was_taken_back()
    {
        using var store = folder.Open();
        var (row, feed) = (Rows.Accepted("AM-0147", 190), Rows.Feed("AM-0147"));
        store.Add(row, null);
        store.Add(feed);
        var undo = Rows.Undo(feed.Id);
        store.Add(undo);
        var history = store.History();
        Assert.Equal([row.Id], history.Weighings.Select(stored => stored.Row.Id));
        Assert.Equal([feed], history.Feeds);
        Assert.Equal([undo], history.Undos);
    }

    [Fact]
    public void Checks_of_a_scale_come_back_in_order_and_are_never_changed()
    {
        using (var store = folder.Open())
        {
            var later = new ScaleCheckRow(Guid.NewGuid(), Rows.At("06:00"), "Etc/UTC", "east-room", "scale", 200_131, 70, 200_000, 100);
            var earlier = later with { Id = Guid.NewGuid(), At = Rows.At("05:00"), Milligrams = 199_950 };
            store.Add(later);
            store.Add(later);
            store.Add(earlier);
            store.Add(later with { Id = Guid.NewGuid(), Device = "other" });
            Assert.Equal([earlier, later], store.ScaleChecks("scale", DateTimeOffset.MinValue));
            Assert.Equal([later], store.ScaleChecks("scale", Rows.At("05:30")));
            Assert.Equal((131, false), (later.ErrorMilligrams, later.IsWithinTolerance));
            Assert.Equal((-50, true), (earlier.ErrorMilligrams, earlier.IsWithinTolerance));
            Assert.Throws<ArgumentException>(() => store.Add(later with { Id = Guid.NewGuid(), ExpectedMilligrams = 0 }));
        }

        Assert.Contains("only ever added", Assert.Throws<SqliteException>(() => folder.Run("UPDATE scale_checks SET milligrams = 1")).Message, StringComparison.Ordinal);
        Assert.Contains("only ever added", Assert.Throws<SqliteException>(() => folder.Run("DELETE FROM scale_checks")).Message, StringComparison.Ordinal);
    }
}
