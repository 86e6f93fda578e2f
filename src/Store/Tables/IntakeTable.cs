using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>What chicks took at a feed, by weighing before and after it.</summary>
internal sealed class IntakeTable(SqliteConnection connection) : IDisposable
{
    private const string Names = "id, feed, before, after, at, zone, station, milligrams, uncertainty_milligrams";

    private readonly Statement insert = new(connection,
        $"INSERT INTO intakes ({Names}) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9) ON CONFLICT (id) DO NOTHING", 9);

    // A feed that was taken back was not taken in.
    private readonly Statement since = new(connection,
        $"SELECT {Names} FROM intakes i WHERE at >= $1 AND EXISTS (SELECT 1 FROM standing_feeds f WHERE f.id = i.feed) ORDER BY at, seq", 1);

    public void Add(IntakeRow row) => insert.Run(
        Columns.Key(row.Id), Columns.Key(row.Feed), Columns.Key(row.Before), Columns.Key(row.After),
        Columns.Microseconds(row.At), row.Zone, row.Station, row.Milligrams, row.UncertaintyMilligrams);

    public IReadOnlyList<IntakeRow> Since(DateTimeOffset moment) => [.. since.Rows(Map, Columns.Microseconds(moment))];

    private static IntakeRow Map(SqliteDataReader row) => new(
        Columns.Id(row, 0), Columns.Id(row, 1), Columns.Id(row, 2), Columns.Id(row, 3),
        Columns.Moment(row.GetInt64(4)), row.GetString(5), row.GetString(6), row.GetInt64(7), row.GetInt64(8));

    public void Dispose()
    {
        insert.Dispose();
        since.Dispose();
    }
}
