using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>The weighings: adding one, and the queries over them.</summary>
internal sealed class WeighingTable(SqliteConnection connection) : IDisposable
{
    private const string Names =
        "id, chick, at, zone, day, milligrams, uncertainty_milligrams, tare_milligrams, verdict, reasons, remedy, age_days, " +
        "origin, station, device, replaces, grams_decimals, uncertainty_decimals, tare_decimals";

    private const string Filter = "day >= $1 AND day <= $2 AND ($3 IS NULL OR verdict = $3) AND ($4 OR state = 'stands')";

    private readonly Statement insert = new(connection,
        $"INSERT INTO weighings ({Names}) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19) " +
        "ON CONFLICT (id) DO NOTHING", 19);

    private readonly Statement inRange = new(connection,
        $"SELECT {Names}, state, seq FROM weighing_states WHERE {Filter} ORDER BY day, at, seq", 4);

    private readonly Statement ofChick = new(connection,
        $"SELECT {Names}, state, seq FROM weighing_states WHERE chick = $5 AND {Filter} ORDER BY day, at, seq", 5);

    private readonly Statement byDayAndCode = new(connection,
        $"SELECT {Names}, state, seq FROM weighing_states WHERE ($5 IS NULL OR chick = $5) AND {Filter} ORDER BY day, chick, at, seq", 5);

    private readonly Statement ofDay = new(connection,
        $"SELECT {Names}, state, seq FROM weighing_states WHERE chick IS $1 AND day = $2 ORDER BY at, seq", 2);

    private readonly Statement ofId = new(connection, $"SELECT {Names}, state, seq FROM weighing_states WHERE id = $1", 1);

    private readonly Statement back = new(connection,
        $"SELECT {Names}, state, seq FROM weighing_states WHERE seq < $6 AND ($5 IS NULL OR chick = $5) AND {Filter} ORDER BY seq DESC LIMIT $7", 7);

    private readonly Statement unregistered = new(connection,
        $"SELECT {Names}, state, seq FROM weighing_states WHERE chick = $1 AND verdict = 'rejected' AND reasons = 'unknown-chick' ORDER BY day, at, seq", 1);

    private readonly Statement inArrival = new(connection, $"SELECT {Names}, state, seq FROM weighing_states ORDER BY seq", 0);

    private readonly Statement growth = new(connection, """
        SELECT chick, day, milligrams, uncertainty_milligrams, grams_decimals FROM weighing_states
        WHERE day >= $1 AND day <= $2 AND verdict = 'accepted' AND state = 'stands' ORDER BY day, at, seq
        """, 2);

    private readonly Statement stateOf = new(connection, "SELECT state FROM weighing_states WHERE id = $1", 1);

    private readonly Statement replaced = new(connection, "SELECT count(*) FROM weighings WHERE replaces = $1", 1);

    /// <returns>The row's place in the order of arrival; null if the id is there already.</returns>
    public long? Add(WeighingRow row)
    {
        var added = insert.Run(
            Columns.Key(row.Id), row.Chick, Columns.Microseconds(row.At), row.Zone, Columns.Day(row.Day),
            row.Milligrams, row.UncertaintyMilligrams, row.TareMilligrams, Words.Of(row.Verdict), Words.Of(row.Reasons), row.Remedy, row.AgeDays,
            Words.Of(row.Origin), row.Station, row.Device, row.Replaces is { } old ? Columns.Key(old) : null,
            row.Written?.Grams, row.Written?.Uncertainty, row.Written?.Tare);
        return added == 1 ? SQLitePCL.raw.sqlite3_last_insert_rowid(connection.Handle) : null;
    }

    /// <summary>In the order of day, time and arrival.</summary>
    public IEnumerable<StoredWeighing> Find(string? chick, DateOnly? from, DateOnly? to, Verdict? verdict, bool all)
    {
        var (first, last) = (Columns.Day(from ?? DateOnly.MinValue), Columns.Day(to ?? DateOnly.MaxValue));
        var wanted = verdict is { } one ? Words.Of(one) : null;
        return chick is null
            ? inRange.Rows(Map, first, last, wanted, all)
            : ofChick.Rows(Map, first, last, wanted, all, chick);
    }

    /// <summary>In the order of day and code, as an export has them.</summary>
    public IEnumerable<StoredWeighing> ByDayAndCode(string? chick, DateOnly? from, DateOnly? to, bool all) =>
        byDayAndCode.Rows(Map, Columns.Day(from ?? DateOnly.MinValue), Columns.Day(to ?? DateOnly.MaxValue), null, all, chick);

    public StoredWeighing? OfId(Guid id) => ofId.Rows(Map, Columns.Key(id)).SingleOrDefault();

    /// <summary>The newest first, in the order of arrival; only those that arrived before <paramref name="before"/>.</summary>
    public List<StoredWeighing> Back(long? before, int most, string? chick, DateOnly? from, DateOnly? to, bool all) =>
        [.. back.Rows(Map, Columns.Day(from ?? DateOnly.MinValue), Columns.Day(to ?? DateOnly.MaxValue), null, all, chick, before ?? long.MaxValue, most)];

    /// <summary>Everything of one chick (or of no chick) and day.</summary>
    public List<StoredWeighing> OfDay(string? chick, DateOnly day) => [.. ofDay.Rows(Map, chick, Columns.Day(day))];

    /// <summary>What was refused for no other reason than that the code was not registered.</summary>
    public List<StoredWeighing> Unregistered(string chick) => [.. unregistered.Rows(Map, chick)];

    /// <summary>Every row, in the order of arrival.</summary>
    public List<StoredWeighing> InArrival() => [.. inArrival.Rows(Map)];

    /// <summary>In the order of day, time and arrival.</summary>
    public List<GrowthWeight> Growth(DateOnly from, DateOnly to)
    {
        var (text, day) = ("", default(DateOnly));
        return [.. growth.Rows(Map, Columns.Day(from), Columns.Day(to))];

        GrowthWeight Map(SqliteDataReader row)
        {
            // Hundreds of rows have the same day.
            if (row.GetString(1) is var next && next != text)
                (text, day) = (next, Columns.Day(next));
            return new GrowthWeight(row.GetString(0), day, row.GetInt64(2), Columns.Integer(row, 3), Columns.Small(row, 4));
        }
    }

    /// <summary>Null if there is no such row.</summary>
    public WeighingState? StateOf(Guid id)
    {
        foreach (var word in stateOf.Rows(reader => reader.GetString(0), Columns.Key(id)))
            return Words.State(word);
        return null;
    }

    /// <summary>Whether any row, standing or not, names this one as the one it replaces.</summary>
    public bool EverReplaced(Guid id) => replaced.Rows(reader => reader.GetInt64(0), Columns.Key(id)).Single() > 0;

    private static StoredWeighing Map(SqliteDataReader row)
    {
        var written = Columns.Small(row, 16) is { } grams
            ? new WrittenDecimals(grams, Columns.Small(row, 17) ?? 3, Columns.Small(row, 18) ?? 3)
            : (WrittenDecimals?)null;
        var weighing = new WeighingRow(
            Columns.Id(row, 0), Columns.Text(row, 1), Columns.Integer(row, 2) is { } at ? Columns.Moment(at) : null,
            row.GetString(3), Columns.Day(row.GetString(4)),
            Columns.Integer(row, 5), Columns.Integer(row, 6), Columns.Integer(row, 7),
            Words.Verdict(row.GetString(8)), Words.Reasons(row.GetString(9)), Columns.Text(row, 10), Columns.Small(row, 11),
            Words.Origin(row.GetString(12)), row.GetString(13), Columns.Text(row, 14),
            row.IsDBNull(15) ? null : Columns.Id(row, 15), written);
        return new(weighing, Words.State(row.GetString(19)), row.GetInt64(20));
    }

    public void Dispose()
    {
        foreach (var statement in (ReadOnlySpan<Statement>)[insert, inRange, ofChick, byDayAndCode, ofDay, ofId, back, unregistered, inArrival, growth, stateOf, replaced])
            statement.Dispose();
    }
}
