using CaptureAgent.Store.Tables;

namespace CaptureAgent.Store;

/// <summary>Puts rows that were judged again in the place of those that stand.</summary>
internal static class Rejudged
{
    /// <exception cref="ArgumentException">A row is no such row, or what it replaces does not stand (any more).</exception>
    public static void Add(Database database, IEnumerable<WeighingRow> rows)
    {
        foreach (var row in rows)
        {
            if (row is not { Origin: Origin.Rejudged, Replaces: { } old })
                throw new ArgumentException($"The row {row.Id} is not one that was judged again: it needs the origin and the row it replaces.", nameof(rows));
            if (database.Weighings.StateOf(old) is not WeighingState.Stands)
                throw new ArgumentException($"The weighing {old} does not stand any more: somebody has changed the record meanwhile.", nameof(rows));
            database.Weighings.Add(row);
        }
    }
}
