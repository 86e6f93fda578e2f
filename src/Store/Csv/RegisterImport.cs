using CaptureAgent.Store.Tables;

namespace CaptureAgent.Store.Csv;

/// <summary>Takes a register file into the store: <c>code,species,hatched[,clutch,brooder,band,left,note]</c>.</summary>
internal static class RegisterImport
{
    public static readonly string[] Required = ["code", "species", "hatched"];
    public static readonly string[] Optional = ["clutch", "brooder", "band", "left", "note"];

    public static ImportResult Run(CaptureStore store, TextReader text, ImportOptions options)
    {
        var table = CsvTable.Read(text, Required, Optional);
        var bad = table.Bad;
        int added = 0, unchanged = 0, changed = 0, adopted = 0;
        var written = false;
        store.Write("import the register", db =>
        {
            var known = db.Register.All().ToDictionary(chick => chick.Code);
            foreach (var chick in Chicks(table, known, options, bad))
            {
                var (change, weighings) = Adoption.Register(db, chick, store.Time);
                adopted += weighings;
                if (options.Hand is var (who, reason) && change != RegisterChange.None)
                    db.Hands.Add(new(store.Time.GetUtcNow(), who, reason, Chick: chick.Code));
                switch (change)
                {
                    case RegisterChange.Added: added++; break;
                    case RegisterChange.Changed: changed++; break;
                    default: unchanged++; break;
                }
            }

            return written = bad.Count == 0 || options.SkipBad;
        });
        var inOrder = bad.OrderBy(fault => fault.Row).ToList();
        return written ? new(added, unchanged, changed, adopted, 0, inOrder, true) : new(0, 0, 0, 0, 0, inOrder, false);
    }

    private static List<Chick> Chicks(CsvTable table, Dictionary<string, Chick> known, ImportOptions options, List<BadRow> bad)
    {
        var rows = new Dictionary<string, (Chick Chick, Cells Cells)>();
        foreach (var row in table.Rows)
        {
            var cells = new Cells(row, bad);
            if (Chick(table, cells, known, options) is not { } chick)
                continue;
            if (rows.TryGetValue(chick.Code, out var earlier) && earlier.Chick != chick)
                cells.Fault("code", $"is in row {earlier.Cells.Number} already, with other values");
            else
                rows[chick.Code] = (chick, earlier.Cells ?? cells);
        }

        var afterwards = new Dictionary<string, Chick>(known);
        foreach (var (chick, _) in rows.Values)
            afterwards[chick.Code] = chick;
        var bands = afterwards.Values.Where(chick => chick.Band is not null && chick.Left is null).ToLookup(chick => chick.Band!);
        foreach (var (chick, cells) in rows.Values)
            if (chick is { Band: { } band, Left: null } && bands[band].FirstOrDefault(other => other.Code != chick.Code) is { } other)
                cells.Fault("band", $"is the band of {other.Code} too: a band names one chick");
        return [.. rows.Values.Where(row => row.Cells.Good).Select(row => row.Chick)];
    }

    /// <summary>A column that the file does not have leaves what is registered; an empty field clears it.</summary>
    private static Chick? Chick(CsvTable table, Cells cells, Dictionary<string, Chick> known, ImportOptions options)
    {
        var code = cells.Code("code", options.CodeFault);
        if (code is null)
            cells.Fault("code", "is empty: every chick has a code");
        var before = code is null ? null : known.GetValueOrDefault(code);
        var hatched = cells.Date("hatched");
        var left = table.Has("left") ? cells.Date("left") : before?.Left;
        if (left < hatched)
            cells.Fault("left", "is before the hatching");
        return cells.Good
            ? new(code!, cells.Text("species"), hatched,
                table.Has("clutch") ? cells.Text("clutch") : before?.Clutch,
                table.Has("brooder") ? cells.Text("brooder") : before?.Brooder,
                table.Has("band") ? cells.Text("band") : before?.Band,
                left,
                table.Has("note") ? cells.Text("note") : before?.Note)
            : null;
    }
}
