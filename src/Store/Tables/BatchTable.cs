using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>The states of the batches, as they came.</summary>
internal sealed class BatchTable(SqliteConnection connection) : IDisposable
{
    private const string Names = "id, number, day, at, zone, station, device, state, mixed_at, discard_at, millicelsius, below_band_at, probe_checked, constant_milliseconds";

    private readonly Statement insert = new(connection,
        $"INSERT INTO batches ({Names}) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14) ON CONFLICT (id) DO NOTHING", 14);

    private readonly Statement since = new(connection, $"SELECT {Names} FROM standing_batches WHERE at >= $1 ORDER BY at, seq", 1);

    public void Add(BatchRow row) => insert.Run(
        Columns.Key(row.Id), row.Number, Columns.Day(row.Day), Columns.Microseconds(row.At), row.Zone, row.Station, row.Device, row.State,
        Columns.Microseconds(row.MixedAt), Columns.Microseconds(row.DiscardAt), row.Millicelsius, Columns.Microseconds(row.BelowBandAt),
        row.ProbeChecked ? 1 : 0, row.ConstantMilliseconds);

    public IReadOnlyList<BatchRow> Since(DateTimeOffset moment) => [.. since.Rows(Map, Columns.Microseconds(moment))];

    private static BatchRow Map(SqliteDataReader row) => new(
        Columns.Id(row, 0), row.GetInt32(1), Columns.Day(row.GetString(2)), Columns.Moment(row.GetInt64(3)), row.GetString(4), row.GetString(5),
        Columns.Text(row, 6), row.GetString(7), Columns.Moment(row.GetInt64(8)), Columns.Moment(row.GetInt64(9)), Columns.Small(row, 10),
        Columns.Integer(row, 11) is { } below ? Columns.Moment(below) : null, row.GetInt32(12) == 1, Columns.Small(row, 13));

    public void Dispose()
    {
        insert.Dispose();
        since.Dispose();
    }
}
