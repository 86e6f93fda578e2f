using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>The checks of the scales with a known mass.</summary>
internal sealed class ScaleCheckTable(SqliteConnection connection) : IDisposable
{
    private const string Names = "id, at, zone, station, device, milligrams, uncertainty_milligrams, expected_milligrams, tolerance_milligrams";

    private readonly Statement insert = new(connection,
        $"INSERT INTO scale_checks ({Names}) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9) ON CONFLICT (id) DO NOTHING", 9);

    private readonly Statement since = new(connection,
        $"SELECT {Names} FROM scale_checks WHERE device = $1 AND at >= $2 ORDER BY at, seq", 2);

    public void Add(ScaleCheckRow row) => insert.Run(
        Columns.Key(row.Id), Columns.Microseconds(row.At), row.Zone, row.Station, row.Device,
        row.Milligrams, row.UncertaintyMilligrams, row.ExpectedMilligrams, row.ToleranceMilligrams);

    public IReadOnlyList<ScaleCheckRow> Since(string device, DateTimeOffset moment) => [.. since.Rows(Map, device, Columns.Microseconds(moment))];

    private static ScaleCheckRow Map(SqliteDataReader row) => new(
        Columns.Id(row, 0), Columns.Moment(row.GetInt64(1)), row.GetString(2), row.GetString(3), row.GetString(4),
        row.GetInt64(5), row.GetInt64(6), row.GetInt64(7), row.GetInt64(8));

    public void Dispose()
    {
        insert.Dispose();
        since.Dispose();
    }
}
