using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>The checks of the probes against known temperatures.</summary>
internal sealed class ProbeCheckTable(SqliteConnection connection) : IDisposable
{
    private const string Names = "id, at, zone, station, device, kind, millicelsius, expected_millicelsius, tolerance_millicelsius";

    private readonly Statement insert = new(connection,
        $"INSERT INTO probe_checks ({Names}) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9) ON CONFLICT (id) DO NOTHING", 9);

    private readonly Statement all = new(connection, $"SELECT {Names} FROM probe_checks ORDER BY at, seq", 0);

    public void Add(ProbeCheckRow row) => insert.Run(
        Columns.Key(row.Id), Columns.Microseconds(row.At), row.Zone, row.Station, row.Device, row.Kind,
        row.Millicelsius, row.ExpectedMillicelsius, row.ToleranceMillicelsius);

    public IReadOnlyList<ProbeCheckRow> All() => [.. all.Rows(row => new ProbeCheckRow(
        Columns.Id(row, 0), Columns.Moment(row.GetInt64(1)), row.GetString(2), row.GetString(3), row.GetString(4), row.GetString(5),
        row.GetInt32(6), row.GetInt32(7), row.GetInt32(8)))];

    public void Dispose()
    {
        insert.Dispose();
        all.Dispose();
    }
}
