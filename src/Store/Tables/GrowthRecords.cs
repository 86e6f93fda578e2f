using Microsoft.Data.Sqlite;

namespace CaptureAgent.Store.Tables;

/// <summary>The weights that stand, chick by chick: a pass over all of them holds one chick at a time.</summary>
internal sealed class GrowthRecords(SqliteConnection connection) : IDisposable
{
    private const string Growth = "FROM weighing_states WHERE chick IS NOT NULL AND verdict = 'accepted' AND state = 'stands'";

    private readonly Statement all = new(connection, $"SELECT chick, day, milligrams {Growth} ORDER BY chick, day, at, seq", 0);

    public IEnumerable<GrowthRecord> Each()
    {
        var record = new GrowthRecord("", [], []);
        foreach (var (chick, day, milligrams) in all.Rows(row => (row.GetString(0), Columns.Day(row.GetString(1)), row.GetInt64(2))))
        {
            if (chick != record.Chick)
            {
                if (record.Days.Count > 0)
                    yield return record;
                record = new GrowthRecord(chick, [], []);
            }

            // One weight a day: the last of several.
            if (record.Days.Count > 0 && record.Days[^1] == day)
            {
                record.Milligrams[^1] = milligrams;
                continue;
            }

            record.Days.Add(day);
            record.Milligrams.Add(milligrams);
        }

        if (record.Days.Count > 0)
            yield return record;
    }

    public void Dispose() => all.Dispose();
}
