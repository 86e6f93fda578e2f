using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>What the dips of the probes have shown of their lag.</summary>
internal sealed class ProbeLagTable(SqliteConnection connection) : IDisposable
{
    private const string Names = "id, at, zone, station, device, constant_milliseconds, lags";

    private readonly Statement insert = new(connection,
        $"INSERT INTO probe_lags ({Names}) VALUES ($1, $2, $3, $4, $5, $6, $7) ON CONFLICT (id) DO NOTHING", 7);

    private readonly Statement newest = new(connection, $"""
        SELECT {Names} FROM (
          SELECT *, row_number() OVER (PARTITION BY device ORDER BY at DESC, seq DESC) AS back FROM probe_lags)
        WHERE back <= $1 ORDER BY at, seq
        """, 1);

    public void Add(ProbeLagRow row) => insert.Run(
        Columns.Key(row.Id), Columns.Microseconds(row.At), row.Zone, row.Station, row.Device, row.ConstantMilliseconds, row.Lags);

    /// <summary>The newest so many of each probe, oldest first.</summary>
    public IReadOnlyList<ProbeLagRow> Newest(int count) => [.. newest.Rows(Map, count)];

    private static ProbeLagRow Map(SqliteDataReader row) => new(
        Columns.Id(row, 0), Columns.Moment(row.GetInt64(1)), row.GetString(2), row.GetString(3), row.GetString(4), row.GetInt32(5), row.GetString(6));

    public void Dispose()
    {
        insert.Dispose();
        newest.Dispose();
    }
}
