using System.Globalization;
using CaptureAgent.Store.Tables;

namespace CaptureAgent.Store.Csv;

/// <summary>Export as RFC 4180 has it: comma, CRLF, quotes where needed. What is written here, an import takes.</summary>
/// <remarks>Sep's writer ends lines as the operating system does, so lines are written here.</remarks>
public static class CsvExport
{
    private const string LineEnd = "\r\n";

    /// <summary>The register as it is now, in the order of codes.</summary>
    public static void Register(CaptureStore store, TextWriter text)
    {
        Line(text, [.. RegisterImport.Required, .. RegisterImport.Optional]);
        foreach (var chick in store.Chicks())
            Line(text, chick.Code, chick.Species, Day(chick.Hatched), chick.Clutch, chick.Brooder, chick.Band, Day(chick.Left), chick.Note);
    }

    /// <summary>Accepted and rejected weighings that stand, in the order of date and code.</summary>
    /// <param name="all">Also what was replaced or taken back, with a last column <c>state</c>.</param>
    public static void Weights(
        CaptureStore store, TextWriter text, string? chick = null, DateOnly? from = null, DateOnly? to = null, bool all = false)
    {
        string[] columns = ["chick", "date", "grams", "at", "verdict", "reasons", "uncertaintyGrams", "tareGrams", "ageDays"];
        Line(text, all ? [.. columns, "state"] : columns);
        var hatched = store.Chicks().Where(known => known.Hatched is not null).ToDictionary(known => known.Code, known => known.Hatched!.Value);
        store.Read("export the weights", db =>
        {
            foreach (var stored in db.Weighings.ByDayAndCode(chick, from, to, all))
            {
                var fields = Fields(stored.Row, hatched);
                Line(text, all ? [.. fields, State(stored.State)] : fields);
            }

            return true;
        });
    }

    private static string?[] Fields(WeighingRow row, Dictionary<string, DateOnly> hatched)
    {
        // The age follows the register of today, which may have been mended since the weighing.
        var age = row.Chick is { } code && hatched.TryGetValue(code, out var born) ? row.Day.DayNumber - born.DayNumber : row.AgeDays;
        return
        [
            row.Chick, Day(row.Day), Grams(row.Milligrams, row.Written?.Grams), Moment(row.At), Words.Of(row.Verdict), Words.Of(row.Reasons),
            Grams(row.UncertaintyMilligrams, row.Written?.Uncertainty), Grams(row.TareMilligrams, row.Written?.Tare),
            age?.ToString(CultureInfo.InvariantCulture),
        ];
    }

    private static string? Day(DateOnly? day) => day is { } date ? Columns.Day(date) : null;

    /// <summary>Three decimals, or as many as the imported file gave.</summary>
    private static string? Grams(long? milligrams, int? decimals) =>
        milligrams is { } value ? (value / 1000m).ToString($"F{decimals ?? 3}", CultureInfo.InvariantCulture) : null;

    /// <summary>UTC with as many of three or six decimals as it takes.</summary>
    private static string? Moment(DateTimeOffset? at)
    {
        if (at is not { } moment)
            return null;
        var format = (moment.UtcTicks % TimeSpan.TicksPerSecond, moment.UtcTicks % TimeSpan.TicksPerMillisecond) switch
        {
            (0, _) => "yyyy-MM-dd'T'HH:mm:ss'Z'",
            (_, 0) => "yyyy-MM-dd'T'HH:mm:ss.fff'Z'",
            _ => "yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'",
        };
        return moment.UtcDateTime.ToString(format, CultureInfo.InvariantCulture);
    }

    private static string State(WeighingState state) => state switch
    {
        WeighingState.Stands => "stands",
        WeighingState.Replaced => "replaced",
        _ => "taken-back",
    };

    private static void Line(TextWriter text, params ReadOnlySpan<string?> fields)
    {
        for (var i = 0; i < fields.Length; i++)
        {
            if (i > 0)
                text.Write(',');
            text.Write(Quoting.Write(fields[i]));
        }

        text.Write(LineEnd);
    }
}
