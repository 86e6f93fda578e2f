using CaptureAgent.Store.Schema;
using Microsoft.Data.Sqlite;
using Xunit;

namespace CaptureAgent.Store.Tests;

public sealed class AppendOnlyTests : IDisposable
{
    private readonly StoreFolder folder = new();

    public AppendOnlyTests()
    {
        using var store = folder.Open();
        var row = Rows.Accepted("AM-0147", 186.4m);
        store.Register(new("AM-0147", "amazon", new(2026, 2, 6)));
        store.Add(row, new("samples-1", new byte[10]));
        store.Add(Rows.Feed("AM-0147"));
        store.Add(Rows.TareAfter(row.Id));
        store.Add(Rows.Undo(row.Id));
    }

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData("UPDATE weighings SET milligrams = 1")]
    [InlineData("DELETE FROM weighings")]
    [InlineData("UPDATE evidence SET samples = x''")]
    [InlineData("DELETE FROM evidence")]
    [InlineData("UPDATE feeds SET chick = 'X'")]
    [InlineData("DELETE FROM feeds")]
    [InlineData("UPDATE undos SET at = 0")]
    [InlineData("DELETE FROM undos")]
    [InlineData("UPDATE register SET hatched = NULL")]
    [InlineData("DELETE FROM register")]
    [InlineData("UPDATE tare_afters SET after_milligrams = 0")]
    [InlineData("DELETE FROM tare_afters")]
    public void No_program_changes_or_deletes_a_row(string sql)
    {
        var refusal = Assert.Throws<SqliteException>(() => folder.Run(sql));
        Assert.Contains("only ever added", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_row_is_not_replaced_through_a_conflict_clause()
    {
        using var store = folder.Open();
        store.Read("test", db =>
        {
            var refusal = Assert.Throws<SqliteException>(() => Migrations.Execute(db.Connection, "INSERT OR REPLACE INTO feeds SELECT * FROM feeds"));
            Assert.Contains("only ever added", refusal.Message, StringComparison.Ordinal);
            return true;
        });
    }

    [Theory]
    [InlineData("milligrams", "'186.4 g'")]
    [InlineData("milligrams", "186.4")]
    [InlineData("verdict", "'maybe'")]
    [InlineData("day", "'2 March'")]
    [InlineData("chick", "NULL")]
    [InlineData("milligrams", "NULL")]
    [InlineData("milligrams", "0")]
    public void A_row_that_breaks_a_rule_of_the_record_is_refused(string column, string value)
    {
        using var raw = folder.Raw();
        string Insert(string name, string with) => $"""
            INSERT INTO weighings (id, chick, zone, day, milligrams, verdict, reasons, origin, station)
            SELECT randomblob(16), {Value("chick")}, 'Etc/UTC', {Value("day")}, {Value("milligrams")}, {Value("verdict")}, '', 'captured', 'east-room'
            FROM (SELECT 'AM-0147' AS chick, '2026-03-02' AS day, 1000 AS milligrams, 'accepted' AS verdict)
            """.Replace($"<{name}>", with, StringComparison.Ordinal).Replace("<", "", StringComparison.Ordinal).Replace(">", "", StringComparison.Ordinal);
        static string Value(string name) => $"<{name}>";

        Migrations.Execute(raw, Insert("none", ""));
        Assert.Throws<SqliteException>(() => Migrations.Execute(raw, Insert(column, value)));
    }

    [Fact]
    public void A_row_that_names_an_unknown_row_is_the_callers_fault_and_leaves_nothing()
    {
        using var store = folder.Open();
        Assert.Throws<ArgumentException>(() => store.Add(Rows.Accepted("AM-0147", 190, replaces: Guid.NewGuid()), new("samples-1", new byte[10])));
        Assert.Throws<ArgumentException>(() => store.Add(Rows.Undo(Guid.NewGuid())));
        Assert.Throws<ArgumentException>(() => store.Add(Rows.Rejected("AM-0147", 190, "a;b"), null));
        Assert.Single(store.AllWeighings());
        store.Add(Rows.Accepted("AM-0147", 190), null);
        Assert.Equal(2, store.AllWeighings().Count);
    }
}
