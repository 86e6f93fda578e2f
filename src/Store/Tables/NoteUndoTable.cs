using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>What was taken back of crops seen full, observations, chores and batches.</summary>
internal sealed class NoteUndoTable(SqliteConnection connection) : IDisposable
{
    private readonly Statement find = new(connection, """
        SELECT 1 WHERE EXISTS (SELECT 1 FROM crop_marks WHERE id = $1) OR EXISTS (SELECT 1 FROM observations WHERE id = $1)
          OR EXISTS (SELECT 1 FROM chores WHERE id = $1) OR EXISTS (SELECT 1 FROM batches WHERE id = $1)
        """, 1);

    private readonly Statement insert = new(connection, """
        INSERT INTO note_undos (id, at, zone, station, crop_mark, observation, chore, batch)
        VALUES ($1, $2, $3, $4, (SELECT id FROM crop_marks WHERE id = $5), (SELECT id FROM observations WHERE id = $5),
          (SELECT id FROM chores WHERE id = $5), (SELECT id FROM batches WHERE id = $5))
        ON CONFLICT (id) DO NOTHING
        """, 5);

    private readonly Statement all = new(connection,
        "SELECT id, at, zone, coalesce(crop_mark, observation, chore, batch), station FROM note_undos ORDER BY at, seq", 0);

    /// <returns>False: no such row is in any of these tables, and nothing was written.</returns>
    public bool TryAdd(UndoRow row)
    {
        if (!find.Rows(_ => true, Columns.Key(row.Undone)).Any())
            return false;
        insert.Run(Columns.Key(row.Id), Columns.Microseconds(row.At), row.Zone, row.Station, Columns.Key(row.Undone));
        return true;
    }

    /// <summary>Oldest first.</summary>
    public IReadOnlyList<UndoRow> All() => [.. all.Rows(row => new UndoRow(
        Columns.Id(row, 0), Columns.Moment(row.GetInt64(1)), row.GetString(2), Columns.Id(row, 3), row.GetString(4)))];

    public void Dispose()
    {
        find.Dispose();
        insert.Dispose();
        all.Dispose();
    }
}
