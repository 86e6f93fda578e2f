using CaptureAgent.Store.Tables;

namespace CaptureAgent.Store.Csv;

/// <summary>One row of a weights file, read and checked against the register.</summary>
internal static class WeightLine
{
    public static readonly string[] Required = ["chick", "date", "grams"];
    public static readonly string[] Optional =
        ["at", "verdict", "reasons", "uncertaintyGrams", "tareGrams", "ageDays", "remedy", "state"];

    /// <summary>A moment and its nursery day differ by the zone's offset and the hour at which the day starts, never by more than this.</summary>
    private static readonly TimeSpan DaySlack = TimeSpan.FromHours(24 + 14);

    /// <returns>Null if the row is bad; the faults are noted.</returns>
    public static WeighingRow? Read(Cells cells, IReadOnlyDictionary<string, Chick> register, ImportOptions options, Guid id)
    {
        var verdict = Verdict(cells);
        var accepted = verdict == Store.Verdict.Accepted;
        var reasons = Reasons(cells);
        // A refused row may be of an unregistered code, which the pattern of codes need not cover.
        var code = cells.Code("chick", accepted ? options.CodeFault : null);
        var day = cells.Date("date");
        var at = cells.Moment("at");
        var grams = cells.Grams("grams", negative: !accepted);
        var uncertainty = cells.Grams("uncertaintyGrams", negative: true);
        var tare = cells.Grams("tareGrams", negative: true);
        var age = cells.Days("ageDays");

        if (uncertainty is { Milligrams: < 0 })
            cells.Fault("uncertaintyGrams", "is below 0 g");
        if (cells.Text("date") is null)
            cells.Fault("date", "is empty: every row has a nursery day");
        if (accepted && cells.Text("grams") is null)
            cells.Fault("grams", "is empty: only a rejected row may be without a weight");
        if (accepted && code is null)
            cells.Fault("chick", "is empty: only a rejected row may be without a chick");
        if (at is { } moment && day is { } date && !Near(moment, date))
            cells.Fault("at", $"does not lie in the nursery day {cells.Text("date")}");

        var chick = code is null ? null : register.GetValueOrDefault(code);
        if (code is not null && chick is null && (accepted || !reasons.Contains("unknown-chick")))
            cells.Fault("chick", "is not in the register: import the register first");
        age = Age(cells, chick, day, age, accepted);
        if (!cells.Good || day is null)
            return null;
        return new(
            id, code, at, options.Zone, day.Value, grams?.Milligrams, uncertainty?.Milligrams, tare?.Milligrams,
            verdict, reasons, cells.Text("remedy"), age, Origin.Imported, options.Station, Device: null,
            Written: new(grams?.Decimals ?? 0, uncertainty?.Decimals ?? 0, tare?.Decimals ?? 0));
    }

    private static Verdict Verdict(Cells cells)
    {
        switch (cells.Text("verdict"))
        {
            case null or "accepted":
                return Store.Verdict.Accepted;
            case "rejected":
                return Store.Verdict.Rejected;
            default:
                cells.Fault("verdict", "is neither accepted nor rejected");
                return Store.Verdict.Rejected;
        }
    }

    private static IReadOnlyList<string> Reasons(Cells cells)
    {
        var reasons = Words.Reasons(cells.Text("reasons") ?? "");
        if (reasons.All(reason => reason.Length > 0 && reason.All(c => c is (>= 'a' and <= 'z') or '-')))
            return reasons;
        cells.Fault("reasons", "is no list of reasons: write them as after-feed;already-weighed");
        return [];
    }

    private static bool Near(DateTimeOffset at, DateOnly day)
    {
        var start = new DateTimeOffset(day, TimeOnly.MinValue, TimeSpan.Zero);
        return at >= start - DaySlack && at < start.AddDays(1) + DaySlack;
    }

    /// <summary>The age follows from the register; one that the file gives must agree with it.</summary>
    private static int? Age(Cells cells, Chick? chick, DateOnly? day, int? given, bool accepted)
    {
        if (chick?.Hatched is not { } hatched || day is not { } date)
            return given;
        var age = date.DayNumber - hatched.DayNumber;
        if (accepted && age < 0)
            cells.Fault("date", $"is before {chick.Code} hatched ({Columns.Day(hatched)})");
        if (given is not null && given != age)
            cells.Fault("ageDays", $"does not agree with the register: {chick.Code} hatched on {Columns.Day(hatched)}, so that day is day {age}");
        return age;
    }
}
