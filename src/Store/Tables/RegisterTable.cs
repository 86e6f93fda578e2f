using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>The register. A change is a new row; a chick is what its newest row says.</summary>
internal sealed class RegisterTable(SqliteConnection connection) : IDisposable
{
    private const string Names = "code, species, hatched, clutch, brooder, band, left_on, note";

    private readonly Statement insert = new(connection,
        $"INSERT INTO register ({Names}, recorded_at) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)", 9);

    private readonly Statement current = new(connection, $"SELECT {Names} FROM chicks ORDER BY code", 0);

    private readonly Statement since = new(connection, $"SELECT {Names} FROM chicks WHERE left_on IS NULL OR left_on >= $1 ORDER BY code", 1);

    private readonly Statement one = new(connection, $"SELECT {Names} FROM chicks WHERE code = $1", 1);

    private readonly Statement versions = new(connection, $"SELECT {Names}, recorded_at FROM register WHERE code = $1 ORDER BY seq", 1);

    public void Add(Chick chick, DateTimeOffset recordedAt) => insert.Run(
        chick.Code, chick.Species, chick.Hatched is { } hatched ? Columns.Day(hatched) : null, chick.Clutch, chick.Brooder,
        chick.Band, chick.Left is { } left ? Columns.Day(left) : null, chick.Note, Columns.Microseconds(recordedAt));

    public IReadOnlyList<Chick> All() => [.. current.Rows(Map)];

    public IReadOnlyList<Chick> NotLeftBefore(DateOnly day) => [.. since.Rows(Map, Columns.Day(day))];

    public Chick? Find(string code) => one.Rows(Map, code).SingleOrDefault();

    public IReadOnlyList<ChickVersion> Versions(string code) =>
        [.. versions.Rows(row => new ChickVersion(Map(row), Columns.Moment(row.GetInt64(8))), code)];

    private static Chick Map(SqliteDataReader row) => new(
        row.GetString(0), Columns.Text(row, 1), Columns.Date(row, 2), Columns.Text(row, 3), Columns.Text(row, 4),
        Columns.Text(row, 5), Columns.Date(row, 6), Columns.Text(row, 7));

    public void Dispose()
    {
        insert.Dispose();
        current.Dispose();
        since.Dispose();
        one.Dispose();
        versions.Dispose();
    }
}
