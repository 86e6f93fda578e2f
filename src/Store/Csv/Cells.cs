using System.Globalization;

namespace CaptureAgent.Store.Csv;

/// <summary>Reads the cells of one row; notes each fault with its reason.</summary>
internal sealed class Cells(CsvRow row, List<BadRow> bad)
{
    /// <summary>The heaviest weight that any row may give: 100 kg, far above any chick.</summary>
    private const decimal MostGrams = 100_000m;

    private static readonly string[] Moments = ["yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK", "yyyy-MM-dd'T'HH:mmK", "yyyy-MM-dd HH:mm:ss.FFFFFFFK", "yyyy-MM-dd HH:mmK"];

    public bool Good { get; private set; } = true;

    public int Number => row.Number;

    public void Fault(string column, string reason)
    {
        Good = false;
        bad.Add(new(row.Number, column, row[column] ?? "", reason));
    }

    /// <summary>Null where the field is empty or the column absent.</summary>
    public string? Text(string column) => row[column] is { Length: > 0 } text ? text : null;

    public string? Code(string column, Func<string, string?>? fault)
    {
        if (Text(column) is not { } code)
            return null;
        if (code.StartsWith('!'))
            Fault(column, "is the code of a command card, not of a chick");
        else if (code.Any(c => char.IsControl(c)) || code.Trim() != code)
            Fault(column, "has blanks around it or control characters in it");
        else if (fault?.Invoke(code) is { } reason)
            Fault(column, reason);
        return code;
    }

    public DateOnly? Date(string column)
    {
        if (Text(column) is not { } text)
            return null;
        if (!DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date))
            Fault(column, "is no date: write it as 2026-03-02 (year-month-day)");
        else if (date.Year is < 1950 or > 2199)
            Fault(column, "is a year that cannot be right (1950 to 2199 may be)");
        else
            return date;
        return null;
    }

    public DateTimeOffset? Moment(string column)
    {
        if (Text(column) is not { } text)
            return null;
        if (!DateTimeOffset.TryParseExact(text, Moments, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var moment))
            Fault(column, "is no moment: write it as 2026-03-02T05:41:10Z");
        else if (!text.EndsWith('Z') && text[^6] is not ('+' or '-'))
            Fault(column, "does not say in which zone: end it with Z (UTC) or an offset such as +01:00");
        else
            return moment.ToUniversalTime();
        return null;
    }

    public int? Days(string column)
    {
        if (Text(column) is not { } text)
            return null;
        if (int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var days))
            return days;
        Fault(column, "is no whole number of days");
        return null;
    }

    /// <summary>A mass in grams with the decimals it was written with.</summary>
    /// <param name="negative">Whether zero and less may be.</param>
    public Mass? Grams(string column, bool negative)
    {
        if (Text(column) is not { } text)
            return null;
        if (!decimal.TryParse(text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var grams))
            Fault(column, "is no number: write grams with a decimal point and without a unit, as 168.9");
        else if (!negative && grams <= 0)
            Fault(column, "is not above 0 g");
        else if (Math.Abs(grams) > MostGrams)
            Fault(column, "is above 100 kg");
        else if (grams * 1000 != Math.Truncate(grams * 1000))
            Fault(column, "is finer than a milligram: give three decimals at most");
        else
            return new((long)(grams * 1000), grams.Scale);
        return null;
    }
}

/// <summary>A mass as a file gives it.</summary>
internal readonly record struct Mass(long Milligrams, int Decimals);
