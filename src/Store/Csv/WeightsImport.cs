using CaptureAgent.Store.Tables;

namespace CaptureAgent.Store.Csv;

/// <summary>Takes a file of weights into the store.</summary>
/// <remarks>
/// An accepted row is compared with the accepted weight that stands for its chick and day: the same changes nothing, another
/// is a correction. A rejected row is known by chick, day, moment, grams and reasons.
/// </remarks>
internal sealed class WeightsImport(CaptureStore store, ImportOptions options)
{
    private readonly Dictionary<(string Chick, DateOnly Day), (int Row, long Milligrams)> given = [];
    private int added, unchanged, corrected, notStanding;

    public ImportResult Run(TextReader text)
    {
        var table = CsvTable.Read(text, WeightLine.Required, WeightLine.Optional);
        var bad = table.Bad;
        var written = false;
        store.Write("import weights", db =>
        {
            var register = db.Register.All().ToDictionary(chick => chick.Code);
            foreach (var row in table.Rows)
                Take(db, new(row, bad), register);
            return written = bad.Count == 0 || options.SkipBad;
        });
        var inOrder = bad.OrderBy(fault => fault.Row).ToList();
        return written
            ? new(added, unchanged, corrected, 0, notStanding, inOrder, true)
            : new(0, 0, 0, 0, 0, inOrder, false);
    }

    private void Take(Database db, Cells cells, Dictionary<string, Chick> register)
    {
        if (cells.Text("state") is not (null or "stands" or "replaced" or "taken-back"))
            cells.Fault("state", "is none of stands, replaced, taken-back");
        if (WeightLine.Read(cells, register, options, Guid.CreateVersion7(store.Time.GetUtcNow())) is not { } row)
            return;
        if (cells.Text("state") is "replaced" or "taken-back")
            notStanding++;
        else if (row.Verdict == Verdict.Accepted)
            TakeAccepted(db, cells, row);
        else
            TakeRejected(db, row);
    }

    private void TakeAccepted(Database db, Cells cells, WeighingRow row)
    {
        var key = (row.Chick!, row.Day);
        var standing = db.Weighings.OfDay(row.Chick, row.Day)
            .Where(stored => stored is { State: WeighingState.Stands, Row.Verdict: Verdict.Accepted }).Select(stored => stored.Row).ToList();
        if (standing.Any(old => Same(old, row)))
        {
            unchanged++;
            given.TryAdd(key, (cells.Number, row.Milligrams!.Value));
        }
        else if (!given.TryAdd(key, (cells.Number, row.Milligrams!.Value)))
        {
            cells.Fault("grams", $"differs from row {given[key].Row}, which gives the same chick and day another weight");
        }
        else if (standing.LastOrDefault() is { } old)
        {
            db.Weighings.Add(row with { Replaces = old.Id });
            corrected++;
        }
        else
        {
            db.Weighings.Add(row);
            added++;
        }
    }

    private void TakeRejected(Database db, WeighingRow row)
    {
        var known = db.Weighings.OfDay(row.Chick, row.Day).Any(stored =>
            stored.Row.Verdict == Verdict.Rejected && stored.Row.Milligrams == row.Milligrams && stored.Row.Reasons.SequenceEqual(row.Reasons)
            && Columns.Microseconds(stored.Row.At) is var at && Equals(at, Columns.Microseconds(row.At)));
        if (known)
        {
            unchanged++;
            return;
        }

        db.Weighings.Add(row);
        added++;
    }

    /// <summary>A captured weight has three decimals; a file that shows fewer of them says the same.</summary>
    private static bool Same(WeighingRow old, WeighingRow row)
    {
        var apart = Math.Abs(old.Milligrams!.Value - row.Milligrams!.Value);
        var halfDigit = row.Written!.Value.Grams switch { 1 => 50, 2 => 5, _ => 0 };
        return apart == 0 || (old.Origin != Origin.Imported && apart <= halfDigit);
    }
}
