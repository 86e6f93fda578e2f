using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>The feeds, and what was taken back (of feeds and of weighings).</summary>
internal sealed class FeedTable(SqliteConnection connection) : IDisposable
{
    private readonly Statement insert = new(connection, """
        INSERT INTO feeds (id, chick, at, zone, day, batch, batch_state, station, way) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)
        ON CONFLICT (id) DO NOTHING
        """, 9);

    private readonly Statement since = new(connection,
        "SELECT id, chick, at, zone, day, batch, batch_state, station, way FROM standing_feeds WHERE at >= $1 ORDER BY at, seq", 1);

    private readonly Statement last = new(connection, "SELECT chick, max(day) FROM standing_feeds WHERE at >= $1 GROUP BY chick", 1);

    private readonly Statement all = new(connection,
        "SELECT id, chick, at, zone, day, batch, batch_state, station, way FROM feeds ORDER BY at, seq", 0);

    private readonly Statement undos = new(connection, "SELECT id, at, zone, coalesce(weighing, feed), station FROM undos ORDER BY at, seq", 0);

    // The row taken back is looked up in both tables; one that is in neither leaves two nulls, which the table refuses.
    private readonly Statement undo = new(connection, """
        INSERT INTO undos (id, at, zone, weighing, feed, station)
        VALUES ($1, $2, $3, (SELECT id FROM weighings WHERE id = $4), (SELECT id FROM feeds WHERE id = $4), $5)
        ON CONFLICT (id) DO NOTHING
        """, 5);

    public void Add(FeedRow row) => insert.Run(
        Columns.Key(row.Id), row.Chick, Columns.Microseconds(row.At), row.Zone, Columns.Day(row.Day), row.Batch, row.BatchState, row.Station, row.Way);

    public void Add(UndoRow row) => undo.Run(Columns.Key(row.Id), Columns.Microseconds(row.At), row.Zone, Columns.Key(row.Undone), row.Station);

    public IReadOnlyList<FeedRow> Since(DateTimeOffset moment) => [.. since.Rows(Map, Columns.Microseconds(moment))];

    public IReadOnlyList<(string Chick, DateOnly Day)> LastSince(DateTimeOffset moment) =>
        [.. last.Rows(row => (row.GetString(0), Columns.Day(row.GetString(1))), Columns.Microseconds(moment))];

    /// <summary>Every feed, those taken back too; oldest first.</summary>
    public IReadOnlyList<FeedRow> All() => [.. all.Rows(Map)];

    /// <summary>Oldest first.</summary>
    public IReadOnlyList<UndoRow> Undos() => [.. undos.Rows(row => new UndoRow(
        Columns.Id(row, 0), Columns.Moment(row.GetInt64(1)), row.GetString(2), Columns.Id(row, 3), row.GetString(4)))];

    private static FeedRow Map(SqliteDataReader row) => new(
        Columns.Id(row, 0), row.GetString(1), Columns.Moment(row.GetInt64(2)), row.GetString(3), Columns.Day(row.GetString(4)),
        Columns.Small(row, 5), Columns.Text(row, 6), row.GetString(7), row.GetString(8));

    public void Dispose()
    {
        insert.Dispose();
        since.Dispose();
        last.Dispose();
        all.Dispose();
        undos.Dispose();
        undo.Dispose();
    }
}
