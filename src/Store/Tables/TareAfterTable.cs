using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>What lay on the pan after a weighing.</summary>
internal sealed class TareAfterTable(SqliteConnection connection) : IDisposable
{
    private const string Names =
        "id, weighing, at, zone, station, device, before_milligrams, after_milligrams, uncertainty_milligrams, slip, drift_free_milligrams";

    private readonly Statement insert = new(connection,
        $"INSERT INTO tare_afters ({Names}) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11) ON CONFLICT (id) DO NOTHING", 11);

    // A row that was adopted or judged again was never on the pan itself: its tares are those of the row it replaces, and so on.
    private readonly Statement find = new(connection, $"""
        WITH RECURSIVE line (weighing_id, origin, replaced, step) AS (
          SELECT id, origin, replaces, 0 FROM weighings WHERE id = $1
          UNION ALL
          SELECT o.id, o.origin, o.replaces, line.step + 1 FROM line JOIN weighings o ON o.id = line.replaced
          WHERE line.origin IN ('adopted', 'rejudged'))
        SELECT {Names} FROM line JOIN tare_afters t ON t.weighing = line.weighing_id ORDER BY line.step LIMIT 1
        """, 1);

    public void Add(TareAfterRow row) => insert.Run(
        Columns.Key(row.Id), Columns.Key(row.Weighing), Columns.Microseconds(row.At), row.Zone, row.Station, row.Device,
        row.BeforeMilligrams, row.AfterMilligrams, row.UncertaintyMilligrams, row.Slip, row.DriftFreeMilligrams);

    /// <summary>Null if none was noted.</summary>
    public TareAfterRow? Find(Guid weighing)
    {
        foreach (var row in find.Rows(Map, Columns.Key(weighing)))
            return row;
        return null;
    }

    private static TareAfterRow Map(SqliteDataReader row) => new(
        Columns.Id(row, 0), Columns.Id(row, 1), Columns.Moment(row.GetInt64(2)), row.GetString(3), row.GetString(4), row.GetString(5),
        row.GetInt64(6), row.GetInt64(7), row.GetInt64(8), row.GetInt64(9) != 0, Columns.Integer(row, 10));

    public void Dispose()
    {
        insert.Dispose();
        find.Dispose();
    }
}
