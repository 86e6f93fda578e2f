using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Thriving;

namespace CaptureAgent.Agent.Commands;

/// <summary>The morning summary for a terminal.</summary>
internal static class MorningText
{
    public static string Of(MorningSummary summary)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"Morning of {Shown.Day(summary.Day)}: {summary.Chicks.Count} chicks, {summary.NotWeighed.Count} not weighed yet\n");
        foreach (var section in MorningSection.Of(summary))
            text.Append(CultureInfo.InvariantCulture, $"\n{section.Title}\n{string.Concat(section.Lines.Select(line => $"  {(line.Kind is { } kind ? $"[{kind}] " : null)}{line.Text}\n"))}");
        text.Append("\nAll\n").Append(Table(summary));
        text.Append(CultureInfo.InvariantCulture, $"\n{MorningSection.Caution}\n");
        return text.ToString();
    }

    public static string Word(Stage? stage) => stage?.Word() ?? "not known";

    public static string? Grams(double? grams) => grams?.ToString("0.0", CultureInfo.InvariantCulture);

    public static string? Percent(double? percent) => percent is { } value ? value.ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture) + " %" : null;

    public static string? Interval(ChickDay chick) => chick.LowGrams is null ? null : $"{Grams(chick.LowGrams)} to {Grams(chick.HighGrams)}";

    private static string Table(MorningSummary summary)
    {
        var table = new TextTable("chick", ">age", "stage", ">grams", ">gain", ">expected", "95 %", "seen");
        foreach (var chick in summary.Chicks)
        {
            table.Add(
                chick.Chick, chick.AgeDays?.ToString(CultureInfo.InvariantCulture), Word(chick.Stage), Grams(chick.Grams), Percent(chick.GainPercent),
                Grams(chick.ExpectedGrams), Interval(chick), MorningSection.Seen(summary, chick.Chick));
        }

        return table.ToString();
    }
}
