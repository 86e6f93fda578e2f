using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>Chores of hygiene that were done.</summary>
internal sealed class ChoreTable(SqliteConnection connection) : IDisposable
{
    private readonly Statement insert = new(connection,
        "INSERT INTO chores (id, chore, at, zone, station) VALUES ($1, $2, $3, $4, $5) ON CONFLICT (id) DO NOTHING", 5);

    private readonly Statement since = new(connection, "SELECT id, chore, at, zone, station FROM standing_chores WHERE at >= $1 ORDER BY at, seq", 1);

    public void Add(ChoreRow row) => insert.Run(Columns.Key(row.Id), row.Chore, Columns.Microseconds(row.At), row.Zone, row.Station);

    /// <summary>Those that stand, oldest first.</summary>
    public IReadOnlyList<ChoreRow> Since(DateTimeOffset moment) => [.. since.Rows(
        row => new ChoreRow(Columns.Id(row, 0), row.GetString(1), Columns.Moment(row.GetInt64(2)), row.GetString(3), row.GetString(4)),
        Columns.Microseconds(moment))];

    public void Dispose()
    {
        insert.Dispose();
        since.Dispose();
    }
}
