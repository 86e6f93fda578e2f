using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>Crops that a keeper saw full.</summary>
internal sealed class CropMarkTable(SqliteConnection connection) : IDisposable
{
    private const string Names = "id, chick, at, zone, day, station";

    private readonly Statement insert = new(connection,
        $"INSERT INTO crop_marks ({Names}) VALUES ($1, $2, $3, $4, $5, $6) ON CONFLICT (id) DO NOTHING", 6);

    private readonly Statement since = new(connection, $"SELECT {Names} FROM standing_crop_marks WHERE at >= $1 ORDER BY at, seq", 1);

    private readonly Statement find = new(connection,
        $"SELECT {Names} FROM standing_crop_marks WHERE ($1 IS NULL OR chick = $1) AND day >= $2 AND day <= $3 ORDER BY at, seq", 3);

    private readonly Statement all = new(connection, $"SELECT {Names} FROM crop_marks ORDER BY at, seq", 0);

    public void Add(CropMarkRow row) => insert.Run(
        Columns.Key(row.Id), row.Chick, Columns.Microseconds(row.At), row.Zone, Columns.Day(row.Day), row.Station);

    public IReadOnlyList<CropMarkRow> Since(DateTimeOffset moment) => [.. since.Rows(Map, Columns.Microseconds(moment))];

    /// <summary>Oldest first.</summary>
    public IReadOnlyList<CropMarkRow> Find(string? chick, DateOnly? from, DateOnly? to) =>
        [.. find.Rows(Map, chick, Columns.Day(from ?? DateOnly.MinValue), Columns.Day(to ?? DateOnly.MaxValue))];

    /// <summary>Every mark, those taken back too; oldest first.</summary>
    public IReadOnlyList<CropMarkRow> All() => [.. all.Rows(Map)];

    private static CropMarkRow Map(SqliteDataReader row) => new(
        Columns.Id(row, 0), row.GetString(1), Columns.Moment(row.GetInt64(2)), row.GetString(3), Columns.Day(row.GetString(4)), row.GetString(5));

    public void Dispose()
    {
        insert.Dispose();
        since.Dispose();
        find.Dispose();
        all.Dispose();
    }
}
