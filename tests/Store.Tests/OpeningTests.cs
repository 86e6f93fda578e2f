using CaptureAgent.Store.Files;
using CaptureAgent.Store.Schema;
using Microsoft.Data.Sqlite;
using Xunit;

namespace CaptureAgent.Store.Tests;

public sealed class OpeningTests : IDisposable
{
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void A_missing_file_is_created_at_the_present_layout()
    {
        folder.Open().Dispose();
        using var raw = folder.Raw();
        Assert.Equal(Migrations.Latest, Migrations.Number(raw, "PRAGMA user_version"));
        Assert.Equal(Migrations.ApplicationId, Migrations.Number(raw, "PRAGMA application_id"));
    }

    [Fact]
    public void An_empty_file_becomes_a_store()
    {
        File.WriteAllBytes(folder.File, []);
        using var store = folder.Open();
        Assert.Empty(store.Chicks());
    }

    [Fact]
    public void A_file_whose_first_layout_never_came_becomes_a_store()
    {
        // A crash between the switch to the write-ahead log and the first migration leaves this.
        folder.Run("PRAGMA journal_mode = WAL; BEGIN IMMEDIATE; CREATE TABLE t (x); DROP TABLE t; COMMIT");
        using var store = folder.Open();
        Assert.Empty(store.Chicks());
    }

    [Fact]
    public void Every_table_is_strict()
    {
        folder.Open().Dispose();
        using var raw = folder.Raw();
        Assert.Equal(19, Migrations.Number(raw, "SELECT count(*) FROM pragma_table_list WHERE type = 'table' AND strict = 1 AND name NOT LIKE 'sqlite_%'"));
        Assert.Equal(0, Migrations.Number(raw, "SELECT count(*) FROM pragma_table_list WHERE type = 'table' AND strict = 0 AND name NOT LIKE 'sqlite_%'"));
    }

    [Fact]
    public void The_connection_is_set_for_durable_commits()
    {
        using var store = folder.Open();
        store.Read("test", db =>
        {
            long Pragma(string name) => Migrations.Number(db.Connection, $"PRAGMA {name}");
            Assert.Equal(2, Pragma("synchronous"));
            Assert.Equal(1, Pragma("foreign_keys"));
            Assert.Equal(1, Pragma("recursive_triggers"));
            Assert.Equal(0, Pragma("trusted_schema"));
            Assert.Equal(1000, Pragma("busy_timeout"));
            Assert.Equal(16 * 1024 * 1024, Pragma("journal_size_limit"));
            using var command = db.Connection.CreateCommand();
            command.CommandText = "PRAGMA journal_mode";
            Assert.Equal("wal", command.ExecuteScalar());
            return true;
        });
    }

    [Theory]
    [InlineData("DELETE")]
    [InlineData("WAL")]
    public void A_newer_version_is_refused_and_not_a_byte_changes(string journal)
    {
        folder.Run($"PRAGMA journal_mode = {journal}; CREATE TABLE later (x); PRAGMA application_id = {Migrations.ApplicationId}; PRAGMA user_version = {Migrations.Latest + 1}");
        var before = File.ReadAllBytes(folder.File);
        var refusal = Assert.Throws<StoreException>(folder.Open);
        Assert.Contains("newer version", refusal.Message, StringComparison.Ordinal);
        Assert.Contains(folder.File, refusal.Message, StringComparison.Ordinal);
        Assert.Contains("newer version", refusal.Remedy, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(folder.File));
    }

    [Fact]
    public void A_newer_version_that_still_lies_in_the_log_is_refused_untouched()
    {
        folder.Open().Dispose();
        string copy;
        using (var raw = folder.Raw())
        {
            Migrations.Execute(raw, $"PRAGMA wal_autocheckpoint = 0; PRAGMA user_version = {Migrations.Latest + 1}");
            copy = folder.Snapshot("crashed.db");
        }

        var (file, log) = (File.ReadAllBytes(copy), File.ReadAllBytes(copy + "-wal"));
        Assert.NotEmpty(log);
        Assert.Throws<StoreException>(() => CaptureStore.Open(copy, folder.Time));
        Assert.Equal(file, File.ReadAllBytes(copy));
        Assert.Equal(log, File.ReadAllBytes(copy + "-wal"));
    }

    [Fact]
    public void A_database_of_another_program_is_refused_untouched()
    {
        folder.Run("CREATE TABLE songs (title TEXT)");
        var before = File.ReadAllBytes(folder.File);
        var refusal = Assert.Throws<StoreException>(folder.Open);
        Assert.Contains("another program", refusal.Message, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(folder.File));
    }

    [Fact]
    public void A_file_that_is_no_database_is_refused_untouched()
    {
        File.WriteAllText(folder.File, string.Join('\n', Enumerable.Repeat("chick,date,grams", 100)));
        var before = File.ReadAllBytes(folder.File);
        var refusal = Assert.Throws<StoreException>(folder.Open);
        Assert.Contains("no SQLite database", refusal.Message, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(folder.File));
    }

    [Fact]
    public void A_damaged_file_is_refused_with_what_to_do()
    {
        using (var store = folder.Open())
            for (var i = 0; i < 200; i++)
                store.Add(Rows.Rejected("AM-0147", 180 + i, "unsettled"), null);
        using (var file = new FileStream(folder.File, FileMode.Open, FileAccess.ReadWrite))
        {
            var noise = new byte[4096];
            new Random(5).NextBytes(noise);
            for (var page = 2; page < file.Length / 4096; page++)
            {
                file.Position = page * 4096L;
                file.Write(noise);
            }
        }

        var refusal = Assert.Throws<StoreException>(folder.Open);
        Assert.Contains("damaged", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("backup", refusal.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_large_store_is_still_checked_where_the_record_lies()
    {
        long root;
        using (var store = folder.Open())
        {
            for (var i = 0; i < 40; i++)
                store.Add(Rows.Rejected("AM-0147", 180 + i, "unsettled"), null);
            root = store.Read("test", db => Migrations.Number(db.Connection, "SELECT rootpage FROM sqlite_schema WHERE name = 'weighings_by_day'"));
        }

        // Zeroed evidence makes the file large without taking time to fill.
        folder.Run("INSERT INTO evidence (weighing, format, compression, length, samples) SELECT seq, 'samples-1', 'brotli', 1, zeroblob(2000000) FROM weighings");
        using (var store = folder.Open())
            store.Verify();
        using (var file = new FileStream(folder.File, FileMode.Open, FileAccess.ReadWrite))
        {
            file.Position = (root - 1) * 4096 + 8;
            file.Write(new byte[2000]);
        }

        Assert.Contains("damaged", Assert.Throws<StoreException>(folder.Open).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Damaged_evidence_is_found_by_the_full_check()
    {
        using (var store = folder.Open())
        {
            store.Add(Rows.Rejected("AM-0147", 180, "unsettled"), null);
            store.Verify();
        }

        folder.Run("PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON; INSERT INTO evidence (weighing, format, compression, length, samples) VALUES (1, 'samples-1', 'none', -1, x'')");
        Assert.Contains("damaged", Assert.Throws<StoreException>(() => { using var store = folder.Open(); store.Verify(); }).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_missing_folder_is_named()
    {
        var refusal = Assert.Throws<StoreException>(() => CaptureStore.Open(Path.Combine(folder.Folder, "no", "capture.db"), folder.Time));
        Assert.Contains(Path.Combine(folder.Folder, "no"), refusal.Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Path.Combine(folder.Folder, "no")));
    }

    [Fact]
    public void A_folder_is_no_store() =>
        Assert.Contains("is a folder", Assert.Throws<StoreException>(() => CaptureStore.Open(folder.Folder, folder.Time)).Message, StringComparison.Ordinal);

    [Fact]
    public void A_place_where_no_file_can_be_made_is_refused() =>
        Assert.Contains("cannot be opened", Assert.Throws<StoreException>(() => CaptureStore.Open("/proc/capture.db", folder.Time)).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData(5, "locked by another program")]
    [InlineData(8, "may not be written")]
    [InlineData(10, "the disk failed")]
    [InlineData(11, "is damaged")]
    [InlineData(13, "no space is left")]
    [InlineData(14, "cannot be opened")]
    [InlineData(26, "no SQLite database")]
    [InlineData(7, "out of memory")]
    public void Each_result_code_says_what_and_what_to_do(int code, string what)
    {
        var fault = Assert.IsType<StoreException>(StoreFaults.Of(new SqliteException("out of memory", code), "/data/capture.db", "write a weighing"));
        Assert.Contains(what, fault.Message, StringComparison.Ordinal);
        Assert.Contains("/data/capture.db", fault.Message, StringComparison.Ordinal);
        Assert.NotEmpty(fault.Remedy);
    }

    [Fact]
    public void Opening_does_not_wait_for_another_programs_write()
    {
        folder.Open().Dispose();
        using var raw = folder.Raw();
        Migrations.Execute(raw, "BEGIN IMMEDIATE");
        using var store = folder.Open();
        Assert.Empty(store.Weighings());
        var refusal = Assert.Throws<StoreException>(() => store.Add(Rows.Accepted("AM-0147", 186.4m), null));
        Assert.Contains("locked by another program", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_step_that_fails_leaves_the_version_before_it()
    {
        using var raw = folder.Raw();
        Migrations.Execute(raw, "CREATE TABLE feeds (x)");
        Assert.Throws<SqliteException>(() => Migrations.Apply(raw));
        Assert.Equal(0, Migrations.Number(raw, "PRAGMA user_version"));
        Assert.Equal(1, Migrations.Number(raw, "SELECT count(*) FROM sqlite_schema WHERE type = 'table'"));
    }
}
