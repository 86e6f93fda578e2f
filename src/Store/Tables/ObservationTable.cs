using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>What keepers saw of a chick.</summary>
internal sealed class ObservationTable(SqliteConnection connection) : IDisposable
{
    private const string Names = "id, chick, at, zone, day, kind, station";

    private readonly Statement insert = new(connection,
        $"INSERT INTO observations ({Names}) VALUES ($1, $2, $3, $4, $5, $6, $7) ON CONFLICT (id) DO NOTHING", 7);

    private readonly Statement find = new(connection,
        $"SELECT {Names} FROM standing_observations WHERE ($1 IS NULL OR chick = $1) AND day >= $2 AND day <= $3 ORDER BY at, seq", 3);

    public void Add(ObservationRow row) => insert.Run(
        Columns.Key(row.Id), row.Chick, Columns.Microseconds(row.At), row.Zone, Columns.Day(row.Day), row.Kind, row.Station);

    /// <summary>Oldest first.</summary>
    public IReadOnlyList<ObservationRow> Find(string? chick, DateOnly? from, DateOnly? to) =>
        [.. find.Rows(Map, chick, Columns.Day(from ?? DateOnly.MinValue), Columns.Day(to ?? DateOnly.MaxValue))];

    private static ObservationRow Map(SqliteDataReader row) => new(
        Columns.Id(row, 0), row.GetString(1), Columns.Moment(row.GetInt64(2)), row.GetString(3), Columns.Day(row.GetString(4)), row.GetString(5), row.GetString(6));

    public void Dispose()
    {
        insert.Dispose();
        find.Dispose();
    }
}
