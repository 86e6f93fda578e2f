using CaptureAgent.Store.Schema;
using CsCheck;
using Xunit;

namespace CaptureAgent.Store.Tests;

public sealed class DurabilityTests : IDisposable
{
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void What_was_added_is_there_after_a_crash_at_that_moment()
    {
        using var store = folder.Open();
        var row = Rows.Accepted("AM-0147", 186.412m);
        store.Add(row, new("samples-1", new byte[] { 1, 2, 3 }));
        store.Add(Rows.Feed("AM-0147"));
        var copy = folder.Snapshot("crashed.db");

        using var after = CaptureStore.Open(copy, folder.Time);
        Assert.Equal(Rows.Text(row), Rows.Text(Assert.Single(after.Weighings())));
        Assert.Equal([1, 2, 3], after.EvidenceOf(row.Id)!.Samples.ToArray());
        Assert.Single(after.Feeds(DateTimeOffset.MinValue));
        using var raw = folder.Raw(copy);
        using var check = raw.CreateCommand();
        check.CommandText = "PRAGMA integrity_check";
        Assert.Equal("ok", check.ExecuteScalar());
    }

    [Fact]
    public void A_log_cut_anywhere_leaves_a_whole_number_of_decisions()
    {
        using var store = folder.Open();
        var ids = new List<Guid>();
        for (var i = 0; i < 6; i++)
        {
            var row = Rows.Accepted($"AM-000{i}", 100 + i);
            ids.Add(row.Id);
            store.Add(row, new("samples-1", new byte[700]));
        }

        var log = StoreFolder.ReadShared(folder.File + "-wal").Length;
        var number = 0;
        Gen.Int[0, log].Sample(cut =>
        {
            var copy = folder.Snapshot($"cut-{Interlocked.Increment(ref number)}.db", cut);
            using var after = CaptureStore.Open(copy, folder.Time);
            var found = after.AllWeighings().Select(stored => stored.Row.Id).ToList();
            Assert.Equal(ids.Take(found.Count), found);
            Assert.All(found, id => Assert.NotNull(after.EvidenceOf(id)));
        }, iter: 40, threads: 1);
    }

    [Fact]
    public void A_full_disk_refuses_and_the_same_decision_tried_again_is_one_row()
    {
        using var store = folder.Open();
        Limit(store, store.Read("test", db => Migrations.Number(db.Connection, "PRAGMA page_count")));
        var row = Rows.Accepted("AM-0147", 186.4m);
        var noise = new byte[20_000];
        new Random(3).NextBytes(noise);
        for (var i = 0; i < 3; i++)
            Assert.Contains("no space is left", Assert.Throws<StoreException>(() => store.Add(row, new("samples-1", noise))).Message, StringComparison.Ordinal);
        Assert.Empty(store.Weighings());

        Limit(store, 1_000_000);
        store.Add(row, new("samples-1", noise));
        store.Add(row, new("samples-1", noise));
        Assert.Equal(row.Id, Assert.Single(store.AllWeighings()).Row.Id);
        Assert.Equal(noise, store.EvidenceOf(row.Id)!.Samples.ToArray());
    }

    [Fact]
    public void Neither_weighing_nor_evidence_is_kept_alone()
    {
        using var store = folder.Open();
        folder.Run("CREATE TRIGGER broken BEFORE INSERT ON evidence BEGIN SELECT RAISE(ABORT, 'no'); END");
        Assert.ThrowsAny<Exception>(() => store.Add(Rows.Accepted("AM-0147", 186.4m), new("samples-1", new byte[10])));
        Assert.Empty(store.AllWeighings());
        folder.Run("DROP TRIGGER broken");
        store.Add(Rows.Accepted("AM-0147", 186.4m), new("samples-1", new byte[10]));
        Assert.Single(store.AllWeighings());
    }

    [Fact]
    public void A_lock_that_passes_refuses_only_while_it_lasts()
    {
        using var store = folder.Open();
        var row = Rows.Accepted("AM-0147", 186.4m);
        using (var other = folder.Raw())
        {
            Migrations.Execute(other, "BEGIN IMMEDIATE");
            Assert.Throws<StoreException>(() => store.Add(row, null));
        }

        store.Add(row, null);
        Assert.Single(store.Weighings());
    }

    [Fact]
    public void A_write_of_another_process_changes_the_data_version_and_an_own_one_does_not()
    {
        using var store = folder.Open();
        using var other = folder.Open();
        var before = store.DataVersion();
        store.Add(Rows.Accepted("AM-0147", 186.4m), null);
        Assert.Equal(before, store.DataVersion());
        other.Add(Rows.Accepted("CN-0321", 58.7m), null);
        Assert.NotEqual(before, store.DataVersion());
        Assert.Equal(2, store.Weighings().Count);
    }

    [Fact]
    public void Evidence_comes_back_byte_for_byte()
    {
        using var store = CaptureStore.Open(":memory:", folder.Time);
        Gen.Byte.Array[0, 5000].Sample(samples =>
        {
            var row = Rows.Accepted("AM-0147", 186.4m);
            store.Add(row, new("samples-1", samples));
            var evidence = store.EvidenceOf(row.Id)!;
            Assert.Equal("samples-1", evidence.Format);
            Assert.Equal(samples, evidence.Samples.ToArray());
        }, iter: 100, threads: 1);
        Assert.Null(store.EvidenceOf(Guid.NewGuid()));
    }

    [Fact]
    public void A_closed_store_is_not_opened_again_by_a_call()
    {
        var store = folder.Open();
        store.Dispose();
        store.Dispose();
        Assert.Throws<ObjectDisposedException>(() => store.Weighings());
        Assert.Throws<ObjectDisposedException>(() => store.Add(Rows.Accepted("AM-0147", 186.4m), null));
        Assert.False(File.Exists(folder.File + "-wal"));
    }

    [Fact]
    public void Evidence_that_cannot_be_unpacked_is_said_so()
    {
        var row = Rows.Accepted("AM-0147", 186.4m);
        using var store = folder.Open();
        store.Add(row, null);
        folder.Run("INSERT INTO evidence (weighing, format, compression, length, samples) VALUES (1, 'samples-1', 'brotli', 10, x'ffff')");
        Assert.Contains("damaged", Assert.Throws<StoreException>(() => store.EvidenceOf(row.Id)).Message, StringComparison.Ordinal);
    }

    private static void Limit(CaptureStore store, long pages) =>
        store.Read("test", db => Migrations.Number(db.Connection, $"PRAGMA max_page_count = {pages}"));
}
