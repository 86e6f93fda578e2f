using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>Who changed what by hand, and why.</summary>
internal sealed class HandTable(SqliteConnection connection) : IDisposable
{
    private const string Names = "at, who, reason, weighing, undone, chick";

    private readonly Statement insert = new(connection, $"INSERT INTO hand_entries ({Names}) VALUES ($1, $2, $3, $4, $5, $6)", 6);

    private readonly Statement ofChick = new(connection, $"""
        SELECT {Names} FROM hand_entries WHERE chick = $1
          OR weighing IN (SELECT id FROM weighings WHERE chick = $1)
          OR undone IN (SELECT id FROM weighings WHERE chick = $1 UNION SELECT id FROM feeds WHERE chick = $1)
        ORDER BY seq
        """, 1);

    public void Add(HandEntry entry) => insert.Run(
        Columns.Microseconds(entry.At), entry.Who, entry.Reason, Key(entry.Weighing), Key(entry.Undone), entry.Chick);

    /// <summary>Oldest first.</summary>
    public IReadOnlyList<HandEntry> Of(string chick) => [.. ofChick.Rows(Map, chick)];

    private static byte[]? Key(Guid? id) => id is { } known ? Columns.Key(known) : null;

    private static HandEntry Map(SqliteDataReader row) => new(
        Columns.Moment(row.GetInt64(0)), row.GetString(1), row.GetString(2), Id(row, 3), Id(row, 4), Columns.Text(row, 5));

    private static Guid? Id(SqliteDataReader row, int column) => row.IsDBNull(column) ? null : Columns.Id(row, column);

    public void Dispose()
    {
        insert.Dispose();
        ofChick.Dispose();
    }
}
