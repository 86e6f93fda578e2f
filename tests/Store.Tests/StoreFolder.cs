using CaptureAgent.Store.Schema;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Time.Testing;

namespace CaptureAgent.Store.Tests;

/// <summary>A folder of its own for one test, with a store file in it.</summary>
public sealed class StoreFolder : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("capture-store-");

    public string Folder => folder.FullName;

    public string File => Path.Combine(Folder, "capture.db");

    public FakeTimeProvider Time { get; } = new(new DateTimeOffset(2026, 3, 2, 5, 0, 0, TimeSpan.Zero));

    public CaptureStore Open() => CaptureStore.Open(File, Time, TimeSpan.FromSeconds(1));

    /// <summary>A connection of another program, which knows nothing of our settings.</summary>
    public SqliteConnection Raw(string? file = null)
    {
        var connection = new SqliteConnection($"Data Source={file ?? File};Pooling=False;Default Timeout=1");
        connection.Open();
        return connection;
    }

    public void Run(string sql)
    {
        using var connection = Raw();
        Migrations.Execute(connection, sql);
    }

    /// <summary>Copies the database and its log as they lie on disk at this moment, as a power cut would leave them.</summary>
    public string Snapshot(string name, int? logBytes = null)
    {
        var copy = Path.Combine(Folder, name);
        System.IO.File.Copy(File, copy);
        var log = ReadShared(File + "-wal");
        System.IO.File.WriteAllBytes(copy + "-wal", log[..Math.Min(logBytes ?? log.Length, log.Length)]);
        return copy;
    }

    public static byte[] ReadShared(string file)
    {
        using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        using var copy = new MemoryStream();
        stream.CopyTo(copy);
        return copy.ToArray();
    }

    public void Dispose() => folder.Delete(recursive: true);
}
