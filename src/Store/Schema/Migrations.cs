using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Schema;

/// <summary>The steps from an empty file to the present layout; step n leads to <c>user_version</c> n.</summary>
internal static class Migrations
{
    /// <summary>Marks the file as ours (<c>PRAGMA application_id</c>): "CAgt" in ASCII.</summary>
    public const int ApplicationId = 0x43416774;

    private static readonly string[] Steps = [Version1.Sql];

    public static int Latest => Steps.Length;

    /// <summary>Takes the missing steps, each in one transaction: a step that fails leaves the version before it.</summary>
    public static void Apply(SqliteConnection connection)
    {
        // Looked at first without a lock, so that opening never waits for another program's long write.
        while (Number(connection, "PRAGMA user_version") < Latest)
            Step(connection);
    }

    private static void Step(SqliteConnection connection)
    {
        Execute(connection, "BEGIN IMMEDIATE");
        try
        {
            // Read again inside the transaction: another process may have migrated while this one waited for the lock.
            var version = Number(connection, "PRAGMA user_version");
            if (version < Latest)
                Execute(connection, $"{Steps[version]} PRAGMA application_id = {ApplicationId}; PRAGMA user_version = {version + 1}");
            Execute(connection, "COMMIT");
        }
        catch
        {
            if (SQLitePCL.raw.sqlite3_get_autocommit(connection.Handle) == 0)
                Execute(connection, "ROLLBACK");
            throw;
        }
    }

    public static void Execute(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    public static long Number(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteScalar() is long value ? value : 0;
    }
}
