using System.Diagnostics;
using System.Security.Cryptography;
using Microsoft.Data.Sqlite;

namespace CaptureAgent.Benchmarks.Rounds;

/// <summary>The least that a durable decision can cost here: one row, one transaction, SQLite in WAL mode with synchronous FULL, on the same disk. Safe for several threads.</summary>
internal sealed class BareCommits : IDisposable
{
    /// <summary>About what the compressed evidence of a weighing takes.</summary>
    private const int RowBytes = 1024;

    private readonly Lock gate = new();
    private readonly SqliteConnection connection;
    private readonly SqliteCommand insert;
    private readonly List<double> milliseconds = [];

    public BareCommits(string path)
    {
        connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = path, Pooling = false }.ToString());
        connection.Open();
        using var setUp = connection.CreateCommand();
        setUp.CommandText = "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; CREATE TABLE bare (row BLOB) STRICT;";
        setUp.ExecuteNonQuery();
        insert = connection.CreateCommand();
        insert.CommandText = "INSERT INTO bare VALUES ($row)";
        insert.Parameters.Add("$row", SqliteType.Blob).Value = RandomNumberGenerator.GetBytes(RowBytes);
        insert.Prepare();
    }

    public IReadOnlyList<double> Milliseconds => milliseconds;

    public void Once()
    {
        lock (gate)
        {
            var start = Stopwatch.GetTimestamp();
            insert.ExecuteNonQuery();
            milliseconds.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }
    }

    public void Dispose()
    {
        insert.Dispose();
        connection.Dispose();
    }
}
