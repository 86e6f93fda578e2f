using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Schema;

/// <summary>The steps from an empty file to the present layout; step n leads to <c>user_version</c> n.</summary>
internal static class Migrations
{
    /// <summary>Marks the file as ours (<c>PRAGMA application_id</c>): "CAgt" in ASCII.</summary>
    public const int ApplicationId = 0x43416774;

    /// <summary>SQLITE_CORRUPT.</summary>
    private const int SqliteCorrupt = 11;

    private static readonly string[] Steps =
        [Version1.Sql, Version2.Sql, Version3.Sql, Version4.Sql, Version5.Sql, Version6.Sql, Version7.Sql, Version8.Sql, Version9.Sql, Version10.Sql];

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
        // A table that others refer to can be made anew only while references are not enforced, which no transaction can change.
        var enforced = Number(connection, "PRAGMA foreign_keys");
        Execute(connection, "PRAGMA foreign_keys = OFF");
        try
        {
            StepUnenforced(connection);
        }
        finally
        {
            Execute(connection, $"PRAGMA foreign_keys = {enforced}");
        }
    }

    private static void StepUnenforced(SqliteConnection connection)
    {
        Execute(connection, "BEGIN IMMEDIATE");
        try
        {
            // Read again inside the transaction: another process may have migrated while this one waited for the lock.
            var version = Number(connection, "PRAGMA user_version");
            if (version < Latest)
            {
                Execute(connection, $"{Steps[version]} PRAGMA application_id = {ApplicationId}; PRAGMA user_version = {version + 1}");
                RefuseBrokenReferences(connection);
            }

            Execute(connection, "COMMIT");
        }
        catch
        {
            if (SQLitePCL.raw.sqlite3_get_autocommit(connection.Handle) == 0)
                Execute(connection, "ROLLBACK");
            throw;
        }
    }

    private static void RefuseBrokenReferences(SqliteConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA foreign_key_check";
        using var broken = command.ExecuteReader();
        if (broken.Read())
            throw new SqliteException($"a row of {broken.GetString(0)} refers to a row that is not there", SqliteCorrupt);
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
