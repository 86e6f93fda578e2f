namespace CaptureAgent.Store.Csv;

/// <summary>What an import needs beside the file.</summary>
/// <param name="Station">Stands in every imported row.</param>
/// <param name="Zone">The station's time zone (IANA name).</param>
/// <param name="SkipBad">Leave bad rows out; otherwise one bad row leaves the store as it was.</param>
/// <param name="CodeFault">Says what is wrong with a chick's code, null if nothing is; without it any code that is no card will do.</param>
public sealed record ImportOptions(string Station, string Zone, bool SkipBad = false, Func<string, string?>? CodeFault = null)
{
    /// <summary>Who imports a register on the page, and why: noted at each chick that it adds or changes.</summary>
    public (string Who, string Reason)? Hand { get; init; }
}

/// <summary>What an import did.</summary>
/// <param name="Corrected">Rows that gave another value than the store had; the old rows are kept beside the new.</param>
/// <param name="Adopted">Weighings from before their chick was registered that now count.</param>
/// <param name="NotStanding">Rows that the file itself marks as replaced or taken back: left out.</param>
/// <param name="Bad">In the order of the file; a row may have several faults.</param>
/// <param name="Written">False if bad rows kept the whole file out.</param>
public sealed record ImportResult(
    int Added, int Unchanged, int Corrected, int Adopted, int NotStanding, IReadOnlyList<BadRow> Bad, bool Written);

/// <summary>One fault of one row.</summary>
/// <param name="Row">Counts the file's rows from the header, which is 1, as a spreadsheet does.</param>
/// <param name="Column">Empty where the fault is the row's as a whole.</param>
public sealed record BadRow(int Row, string Column, string Value, string Reason)
{
    /// <summary>As a keeper reads it.</summary>
    public override string ToString() =>
        Column.Length == 0 ? $"row {Row}: {Reason}" : $"row {Row}, {Column} \"{Value}\": {Reason}";
}

/// <summary>The file as a whole cannot be imported; nothing was written.</summary>
public sealed class ImportException(string message, string remedy, Exception? inner = null) : Exception(message, inner)
{
    public string Remedy { get; } = remedy;
}
