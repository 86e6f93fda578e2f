using CaptureAgent.Store.Schema;
using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>One open connection with its prepared statements.</summary>
internal sealed class Database(SqliteConnection connection) : IDisposable
{
    private readonly Statement begin = new(connection, "BEGIN IMMEDIATE", 0);
    private readonly Statement commit = new(connection, "COMMIT", 0);
    private readonly Statement rollback = new(connection, "ROLLBACK", 0);

    public WeighingTable Weighings { get; } = new(connection);

    public EvidenceTable Evidence { get; } = new(connection);

    public FeedTable Feeds { get; } = new(connection);

    public NoteUndoTable NoteUndos { get; } = new(connection);

    public IntakeTable Intakes { get; } = new(connection);

    public CropMarkTable CropMarks { get; } = new(connection);

    public ChoreTable Chores { get; } = new(connection);

    public ScaleCheckTable ScaleChecks { get; } = new(connection);

    public TareAfterTable TareAfters { get; } = new(connection);
    public ObservationTable Observations { get; } = new(connection);
    public BatchTable Batches { get; } = new(connection);

    public ProbeCheckTable ProbeChecks { get; } = new(connection);

    public ProbeLagTable ProbeLags { get; } = new(connection);

    public RegisterTable Register { get; } = new(connection);

    public GrowthRecords Growth { get; } = new(connection);
    public HandTable Hands { get; } = new(connection);

    public PairingTable Pairings { get; } = new(connection);

    public SqliteConnection Connection => connection;

    /// <summary>Takes the write lock at once, so that a wait for it happens here and not half-way.</summary>
    public void Begin() => begin.Run();

    public void Commit() => commit.Run();

    /// <summary>Ends a transaction that failed, if SQLite has not ended it by itself.</summary>
    /// <remarks>
    /// After FULL, IOERR, NOMEM, BUSY or INTERRUPT SQLite may or may not have rolled back already; after a failed COMMIT the
    /// transaction stays open unless it did (SQLite documentation, "Transaction", 3). The auto-commit flag tells which.
    /// </remarks>
    public void Rollback()
    {
        if (SQLitePCL.raw.sqlite3_get_autocommit(connection.Handle) == 0)
            rollback.Run();
    }

    public long DataVersion() => Migrations.Number(connection, "PRAGMA data_version");

    public void Dispose()
    {
        begin.Dispose();
        commit.Dispose();
        rollback.Dispose();
        Weighings.Dispose();
        Evidence.Dispose();
        Feeds.Dispose();
        NoteUndos.Dispose();
        Intakes.Dispose();
        CropMarks.Dispose();
        Chores.Dispose();
        ScaleChecks.Dispose();
        TareAfters.Dispose();
        Observations.Dispose();
        Batches.Dispose();
        ProbeChecks.Dispose();
        ProbeLags.Dispose();
        Register.Dispose();
        Growth.Dispose();
        Hands.Dispose();
        Pairings.Dispose();
        connection.Dispose();
    }
}
