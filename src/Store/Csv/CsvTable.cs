using nietras.SeparatedValues;

namespace CaptureAgent.Store.Csv;

/// <summary>A CSV file (RFC 4180) by the names of its columns: comma, optional quotes, CRLF or LF, a header row, columns in any order.</summary>
/// <remarks>Splitting is Sep's; what Sep takes and RFC 4180 does not (quotes amid a field, rows of another length) is refused here.</remarks>
internal sealed class CsvTable
{
    private const char ByteOrderMark = '\uFEFF';

    private readonly HashSet<string> columns;

    private CsvTable(HashSet<string> columns, List<CsvRow> rows, List<BadRow> bad) => (this.columns, Rows, Bad) = (columns, rows, bad);

    public List<CsvRow> Rows { get; }

    /// <summary>Rows that could not be split into the header's columns.</summary>
    public List<BadRow> Bad { get; }

    public bool Has(string column) => columns.Contains(column);

    /// <exception cref="ImportException">The file as a whole cannot be read: no header, missing, unknown or doubled columns, no UTF-8.</exception>
    public static CsvTable Read(TextReader text, IReadOnlyList<string> required, IReadOnlyList<string> optional)
    {
        try
        {
            if (text.Peek() == ByteOrderMark)
                text.Read();
            using var reader = Sep.New(',').Reader(o => o with { HasHeader = false, DisableColCountCheck = true }).From(text, leaveOpen: true);
            return Read(reader, required, optional);
        }
        catch (System.Text.DecoderFallbackException fault)
        {
            throw new ImportException("The file is not UTF-8 text.", "Save it as \"CSV UTF-8\".", fault);
        }
        catch (Exception fault) when (fault is NotSupportedException or InvalidDataException)
        {
            throw new ImportException($"The file is not CSV as RFC 4180 describes it: {fault.Message}", "Look for a quote that is opened and never closed.", fault);
        }
    }

    private static CsvTable Read(SepReader reader, IReadOnlyList<string> required, IReadOnlyList<string> optional)
    {
        string[]? header = null;
        var rows = new List<CsvRow>();
        var bad = new List<BadRow>();
        var number = 0;
        foreach (var row in reader)
        {
            number++;
            if (row.ColCount == 1 && row[0].Span.IsEmpty)
                continue;
            if (header is null)
            {
                header = Header(row, required, optional);
                continue;
            }

            if (Split(row, header, number, bad) is { } cells)
                rows.Add(new(number, cells));
        }

        if (header is null)
            throw new ImportException("The file is empty.", $"Its first line names the columns: {string.Join(',', required)}.");
        return new([.. header], rows, bad);
    }

    private static string[] Header(SepReader.Row row, IReadOnlyList<string> required, IReadOnlyList<string> optional)
    {
        var names = new string[row.ColCount];
        for (var i = 0; i < names.Length; i++)
            names[i] = Quoting.TryRead(row[i].Span, out var name) ? name : row[i].ToString();

        var allowed = (string[])[.. required, .. optional];
        var unknown = names.Where(name => !allowed.Contains(name)).ToList();
        var remedy = $"The first line names the columns, separated by commas: {string.Join(", ", required)} must be there; {string.Join(", ", optional)} may be.";
        if (unknown.Count > 0)
            throw new ImportException($"Unknown columns: {string.Join(", ", unknown.Select(name => $"\"{name}\""))}.", remedy);
        if (required.Except(names).ToList() is { Count: > 0 } missing)
            throw new ImportException($"Missing columns: {string.Join(", ", missing)}.", remedy);
        if (names.GroupBy(name => name).FirstOrDefault(group => group.Count() > 1) is { } doubled)
            throw new ImportException($"The column {doubled.Key} is there {doubled.Count()} times.", "Leave one of them.");
        return names;
    }

    private static Dictionary<string, string>? Split(SepReader.Row row, string[] header, int number, List<BadRow> bad)
    {
        if (row.ColCount != header.Length)
        {
            bad.Add(new(number, "", row.Span.ToString(), $"has {row.ColCount} fields; the header has {header.Length}"));
            return null;
        }

        var cells = new Dictionary<string, string>(header.Length);
        for (var i = 0; i < header.Length; i++)
        {
            if (!Quoting.TryRead(row[i].Span, out var value))
            {
                bad.Add(new(number, header[i], row[i].ToString(), "a quote stands where none may be: put the field in quotes and double those within"));
                return null;
            }

            cells[header[i]] = value;
        }

        return cells;
    }
}

/// <summary>One row of a CSV file.</summary>
/// <param name="Number">Counts the file's rows from the header, which is 1: the row that a spreadsheet shows.</param>
internal sealed record CsvRow(int Number, IReadOnlyDictionary<string, string> Cells)
{
    /// <summary>Null where the column is absent; empty where the field is.</summary>
    public string? this[string column] => Cells.GetValueOrDefault(column);
}
