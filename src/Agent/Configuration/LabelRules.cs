using CaptureAgent.Agent.Labels;

namespace CaptureAgent.Agent.Configuration;

/// <summary>What the values of labels must be beyond their kind.</summary>
internal static class LabelRules
{
    private const decimal Most = 1000;

    public static void Check(LabelOptions labels, RuleBook book)
    {
        book.OneOf("labels.symbol", labels.Symbol, Symbols.Names);
        for (var i = 0; i < labels.Sheets.Count; i++)
            CheckSheet(labels, i, book);
        book.OneOf("labels.sheet", labels.Sheet, [.. All(labels).Select(sheet => sheet.Name)]);
    }

    /// <summary>The station's own sheets, then the usual ones.</summary>
    public static IEnumerable<LabelSheet> All(LabelOptions labels) => labels.Sheets.Select(Sheet).Concat(LabelSheet.Usual);

    private static LabelSheet Sheet(SheetOptions own) => new(
        own.Name, own.PageWidthMillimetres, own.PageHeightMillimetres, own.Columns, own.Rows, own.LeftMillimetres, own.TopMillimetres,
        own.LabelWidthMillimetres, own.LabelHeightMillimetres, own.GapAcrossMillimetres, own.GapDownMillimetres);

    private static void CheckSheet(LabelOptions labels, int i, RuleBook book)
    {
        var (own, path, before) = (labels.Sheets[i], $"labels.sheets[{i}]", book.Faults.Count);
        if (string.IsNullOrWhiteSpace(own.Name))
            book.Add($"{path}.name", own.Name, "missing: --sheet asks for a sheet by its name.");
        else if (labels.Sheets.Take(i).Any(other => other.Name == own.Name) || LabelSheet.Usual.Any(usual => usual.Name == own.Name))
            book.Add($"{path}.name", own.Name, "there is a sheet of this name already; give it another.");
        book.Between($"{path}.pageWidthMillimetres", RuleBook.Bounded(own.PageWidthMillimetres), 20, Most, "mm");
        book.Between($"{path}.pageHeightMillimetres", RuleBook.Bounded(own.PageHeightMillimetres), 15, Most, "mm");
        book.Between($"{path}.columns", own.Columns, 1, 50, "");
        book.Between($"{path}.rows", own.Rows, 1, 50, "");
        book.Between($"{path}.leftMillimetres", RuleBook.Bounded(own.LeftMillimetres), 0, Most, "mm");
        book.Between($"{path}.topMillimetres", RuleBook.Bounded(own.TopMillimetres), 0, Most, "mm");
        book.Between($"{path}.labelWidthMillimetres", RuleBook.Bounded(own.LabelWidthMillimetres), 20, Most, "mm");
        book.Between($"{path}.labelHeightMillimetres", RuleBook.Bounded(own.LabelHeightMillimetres), 15, Most, "mm");
        book.Between($"{path}.gapAcrossMillimetres", RuleBook.Bounded(own.GapAcrossMillimetres), 0, Most, "mm");
        book.Between($"{path}.gapDownMillimetres", RuleBook.Bounded(own.GapDownMillimetres), 0, Most, "mm");
        if (book.Faults.Count == before && !Sheet(own).Fits)
            book.Add(path, own.Name, "its labels do not fit on its page: margin, labels and gaps together are larger.");
    }
}
