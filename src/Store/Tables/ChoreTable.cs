using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>Chores of hygiene that were done.</summary>
internal sealed class ChoreTable(SqliteConnection connection) : IDisposable
{
    private readonly Statement insert = new(connection,
        "INSERT INTO chores (id, chore, at, zone, station) VALUES ($1, $2, $3, $4, $5) ON CONFLICT (id) DO NOTHING", 5);

    private readonly Statement newest = new(connection, "SELECT chore, max(at) FROM chores GROUP BY chore ORDER BY chore", 0);

    public void Add(ChoreRow row) => insert.Run(Columns.Key(row.Id), row.Chore, Columns.Microseconds(row.At), row.Zone, row.Station);

    /// <summary>When each chore was last done.</summary>
    public IReadOnlyDictionary<string, DateTimeOffset> LastDone() =>
        newest.Rows(row => (row.GetString(0), Columns.Moment(row.GetInt64(1)))).ToDictionary(StringComparer.Ordinal);

    public void Dispose()
    {
        insert.Dispose();
        newest.Dispose();
    }
}
