using System.Security.Cryptography;
using System.Text;
using Microsoft.Data.Sqlite;
using Xunit;

namespace CaptureAgent.Store.Tests;

/// <summary>What a person changes, with who and why in the same transaction; and the devices of the page.</summary>
public sealed class ByHandTests : IDisposable
{
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void A_correction_and_its_reason_are_one_transaction()
    {
        using var store = folder.Open();
        store.Register(new Chick("AM-0147", null, new DateOnly(2026, 2, 6)));
        var row = Rows.Accepted("AM-0147", 168.4m);
        store.Add(row, null);
        var corrected = Rows.Accepted("AM-0147", 186.4m, replaces: row.Id);

        Assert.True(store.Correct(corrected, "tablet", "digits were exchanged"));

        Assert.Equal(186_400, Assert.Single(store.Weighings("AM-0147")).Milligrams);
        Assert.Equal(("tablet", "digits were exchanged", corrected.Id), Assert.Single(store.HandEntries("AM-0147")) is var hand ? (hand.Who, hand.Reason, hand.Weighing) : default);
    }

    [Fact]
    public void What_does_not_stand_is_not_corrected_and_nothing_is_written()
    {
        using var store = folder.Open();
        store.Register(new Chick("AM-0147", null, null));
        var row = Rows.Accepted("AM-0147", 168.4m);
        store.Add(row, null);
        store.Add(Rows.Undo(row.Id));

        Assert.False(store.Correct(Rows.Accepted("AM-0147", 186.4m, replaces: row.Id), "tablet", "x"));

        Assert.Empty(store.HandEntries("AM-0147"));
        Assert.Single(store.AllWeighings("AM-0147"));
        Assert.Throws<ArgumentException>(() => store.Correct(Rows.Accepted("AM-0147", 186.4m), "tablet", "x"));
    }

    [Fact]
    public void A_row_and_its_reason_that_cannot_both_be_written_are_both_left_out()
    {
        using var store = folder.Open();
        store.Register(new Chick("AM-0147", null, null));
        var row = Rows.Accepted("AM-0147", 168.4m);
        store.Add(row, null);

        // Without a name of who did it the row of the reason breaks a rule of the table.
        Assert.Throws<ArgumentException>(() => store.Correct(Rows.Accepted("AM-0147", 186.4m, replaces: row.Id), "", "x"));

        Assert.Equal(168_400, Assert.Single(store.Weighings("AM-0147")).Milligrams);
    }

    [Fact]
    public void A_feed_that_is_taken_back_names_who_and_why()
    {
        using var store = folder.Open();
        store.Register(new Chick("AM-0147", null, null));
        var feed = Rows.Feed("AM-0147");
        store.Add(feed);

        store.TakeBack(Rows.Undo(feed.Id), "station", "it was AM-0148");

        Assert.Empty(store.Feeds(Rows.At("00:00")));
        Assert.Equal(("station", feed.Id), Assert.Single(store.HandEntries("AM-0147")) is var hand ? (hand.Who, hand.Undone) : default);
    }

    [Fact]
    public void A_registration_by_hand_asks_first_what_is_there()
    {
        using var store = folder.Open();
        store.Add(Rows.Rejected("AM-0147", 186.4m, "unknown-chick"), null);
        Chick? seen = new("x", null, null);

        Assert.Equal(1, store.Register(new Chick("AM-0147", "amazon", null), "station", "added", known => (seen = known) is null));
        Assert.Null(seen);
        Assert.Null(store.Register(new Chick("AM-0147", "macaw", null), "station", "again", known => (seen = known) is null));

        Assert.Equal("amazon", seen?.Species);
        Assert.Equal("amazon", Assert.Single(store.Chicks()).Species);
        Assert.Equal("added", Assert.Single(store.HandEntries("AM-0147")).Reason);
    }

    [Fact]
    public void Weighings_are_read_back_page_by_page_from_the_newest()
    {
        using var store = folder.Open();
        store.Register(new Chick("AM-0147", null, null));
        List<WeighingRow> rows = [.. Enumerable.Range(0, 5).Select(i => Rows.Accepted("AM-0147", 180 + i, Rows.Monday.AddDays(i)))];
        rows.ForEach(row => store.Add(row, null));
        store.Add(Rows.Undo(rows[3].Id));

        var first = store.WeighingsBack(null, 2);
        var rest = store.WeighingsBack(first[^1].Arrival, 10);

        Assert.Equal([rows[4].Id, rows[2].Id, rows[1].Id, rows[0].Id], first.Concat(rest).Select(stored => stored.Row.Id));
        Assert.Equal(WeighingState.TakenBack, store.WeighingsBack(null, 10, all: true).Single(stored => stored.Row.Id == rows[3].Id).State);
        Assert.Equal(WeighingState.TakenBack, store.Weighing(rows[3].Id)!.State);
        Assert.Null(store.Weighing(Guid.NewGuid()));
    }

    [Fact]
    public void A_code_pairs_one_device_once_before_it_expires()
    {
        using var store = folder.Open();
        store.Add(Code("first"));
        store.Add(Code("late"));

        var device = store.Pair(Hash("first"), Hash("token"), "tablet");
        Assert.Equal(("tablet", PageRole.Keeper), (device!.Name, device.Role));
        Assert.Null(store.Pair(Hash("first"), Hash("other"), "phone"));
        Assert.Null(store.Pair(Hash("never made"), Hash("other"), "phone"));
        folder.Time.Advance(TimeSpan.FromMinutes(10));
        Assert.Null(store.Pair(Hash("late"), Hash("other"), "phone"));
        Assert.Equal(device.Id, store.PairedDevice(Hash("token"))!.Id);
        Assert.Null(store.PairedDevice(Hash("other")));
    }

    [Fact]
    public void A_pairing_ends_once_stays_in_the_list_and_its_token_counts_no_more()
    {
        using var store = folder.Open();
        store.Add(Code("first"));
        var device = store.Pair(Hash("first"), Hash("token"), "tablet")!;

        Assert.True(store.EndPairing(device.Id, "station"));
        Assert.False(store.EndPairing(device.Id, "station"));
        Assert.False(store.EndPairing(Guid.NewGuid(), "station"));

        Assert.Null(store.PairedDevice(Hash("token")));
        Assert.Equal(folder.Time.GetUtcNow(), Assert.Single(store.PairedDevices()).EndedAt);
    }

    [Theory]
    [InlineData("hand_entries")]
    [InlineData("pairing_codes")]
    [InlineData("pairings")]
    [InlineData("pairing_ends")]
    public void Nothing_of_it_is_ever_changed_or_deleted(string table)
    {
        using (var store = folder.Open())
        {
            store.Register(new Chick("AM-0147", null, null), "station", "added", _ => true);
            store.Add(Code("first"));
            store.EndPairing(store.Pair(Hash("first"), Hash("token"), "tablet")!.Id, "station");
        }

        Assert.Contains("rows are only ever added", Assert.Throws<SqliteException>(() => folder.Run($"DELETE FROM {table}")).Message, StringComparison.Ordinal);
        Assert.Contains("rows are only ever added", Assert.Throws<SqliteException>(() => folder.Run($"UPDATE {table} SET rowid = rowid")).Message, StringComparison.Ordinal);
    }

    private PairingCode Code(string code) => new(Guid.NewGuid(), Hash(code), PageRole.Keeper, folder.Time.GetUtcNow(), folder.Time.GetUtcNow().AddMinutes(10));

    private static byte[] Hash(string text) => SHA256.HashData(Encoding.UTF8.GetBytes(text));
}
