using CaptureAgent.Store.Schema;
using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Files;

/// <summary>Opens the database file: looks before it touches, checks, sets what makes a commit durable, migrates.</summary>
internal static class StoreFile
{
    public const string InMemory = ":memory:";

    /// <summary>The write-ahead log is cut back to this size after a checkpoint.</summary>
    private const int JournalBytes = 16 * 1024 * 1024;

    /// <summary>Up to this size the whole file is checked at every opening.</summary>
    private const long WholeCheckBytes = 64 * 1024 * 1024;

    /// <param name="patience">How long to wait for another program's lock.</param>
    /// <param name="toRead">Nothing will be written: the pages are not checked first, for damage shows where it is read.</param>
    /// <exception cref="StoreException">See <see cref="CaptureStore.Open"/>.</exception>
    public static SqliteConnection Open(string path, TimeSpan patience, bool toRead)
    {
        if (path != InMemory)
            RefuseBadPlace(path);
        SqliteConnection? connection = null;
        try
        {
            if (path != InMemory && File.Exists(path) && new FileInfo(path).Length > 0)
                LookBeforeWriting(path, patience);
            connection = Connect(path, SqliteOpenMode.ReadWriteCreate, patience);
            Configure(connection, path);
            if (!toRead)
                Check(connection, path);
            Migrations.Apply(connection);
            // What a crash left in the log is on disk before anyone relies on it: a checkpoint syncs the log first.
            Migrations.Execute(connection, "PRAGMA wal_checkpoint(PASSIVE)");
            return connection;
        }
        catch (SqliteException fault)
        {
            connection?.Dispose();
            throw StoreFaults.Of(fault, path, "open the store");
        }
        catch
        {
            connection?.Dispose();
            throw;
        }
    }

    private static void RefuseBadPlace(string path)
    {
        if (Directory.Exists(path))
            throw new StoreException($"{path} is a folder; the store is a file.", "Name a file in it, such as capture.db.");
        var folder = Path.GetDirectoryName(path);
        if (!string.IsNullOrEmpty(folder) && !Directory.Exists(folder))
            throw new StoreException($"The folder {folder} of the store does not exist.", "Create the folder, or name another place for the store.");
    }

    /// <summary>Reads whose file it is and of which version through a connection that cannot write.</summary>
    /// <remarks>
    /// Through SQLite and not from the header's bytes: the newest header may still lie in the write-ahead log, and
    /// closing a second descriptor of the file would drop the locks this process holds on it
    /// (SQLite documentation, "How To Corrupt An SQLite Database File", 2.2).
    /// </remarks>
    private static void LookBeforeWriting(string path, TimeSpan patience)
    {
        using var connection = Connect(path, SqliteOpenMode.ReadOnly, patience);
        var application = Migrations.Number(connection, "PRAGMA application_id");
        var version = Migrations.Number(connection, "PRAGMA user_version");
        var tables = Migrations.Number(connection, "SELECT count(*) FROM sqlite_schema");
        var blank = application == 0 && version == 0 && tables == 0;
        if (application != Migrations.ApplicationId && !blank)
            throw StoreFaults.Foreign(path);
        if (version > Migrations.Latest)
            throw StoreFaults.Newer(path, version, Migrations.Latest);
    }

    private static SqliteConnection Connect(string path, SqliteOpenMode mode, TimeSpan patience)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            DataSource = path,
            Mode = mode,
            // A pool would keep the file open, and its locks, after Dispose.
            Pooling = false,
            DefaultTimeout = Math.Max(1, (int)patience.TotalSeconds),
        }.ToString());
        try
        {
            connection.Open();
            Migrations.Execute(connection, $"PRAGMA busy_timeout = {(int)patience.TotalMilliseconds}");
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    private static void Configure(SqliteConnection connection, string path)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA journal_mode = WAL";
        var mode = command.ExecuteScalar() as string;
        if (path != InMemory && mode != "wal")
            throw new StoreException($"{path} lies where SQLite's write-ahead log does not work (journal mode {mode}).", "Put the store on a local disk.");
        Migrations.Execute(connection, $"""
            PRAGMA synchronous = FULL;
            PRAGMA foreign_keys = ON;
            PRAGMA recursive_triggers = ON;
            PRAGMA trusted_schema = OFF;
            PRAGMA cell_size_check = ON;
            PRAGMA journal_size_limit = {JournalBytes};
            """);
    }

    /// <remarks>
    /// Every page is looked at while that takes seconds. Most of a large file is evidence, which no decision is made from: it is
    /// left to <see cref="CaptureStore.Verify"/>, so that a station of many years is ready soon after a power cut.
    /// </remarks>
    private static void Check(SqliteConnection connection, string path)
    {
        var bytes = Migrations.Number(connection, "PRAGMA page_count") * Migrations.Number(connection, "PRAGMA page_size");
        if (bytes <= WholeCheckBytes)
        {
            Check(connection, path, "PRAGMA quick_check(1)");
            return;
        }

        // The last two are not there yet in a file of an earlier version.
        foreach (var table in (ReadOnlySpan<string>)["weighings", "feeds", "undos", "register", "scale_checks", "observations"])
        {
            if (Migrations.Number(connection, $"SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = '{table}'") > 0)
                Check(connection, path, $"PRAGMA quick_check({table})");
        }
    }

    /// <summary>Runs one check of SQLite's, which answers "ok" or says what is wrong.</summary>
    public static void Check(SqliteConnection connection, string path, string pragma)
    {
        using var command = connection.CreateCommand();
        command.CommandText = pragma;
        if (command.ExecuteScalar() is not "ok" and var detail)
            throw StoreFaults.Damaged(path, detail as string ?? "the integrity check gave no answer");
    }
}
