using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Thriving;

namespace CaptureAgent.Agent.Commands;

/// <summary>The morning summary for a terminal.</summary>
internal static class MorningText
{
    /// <summary>Heads what was seen under codes that no chick of the room has.</summary>
    public const string NotOfTheRoom = "Seen of chicks that are not in the room: check the code, or the register";

    /// <summary>Heads what the register says and the weights make doubtful.</summary>
    public const string InDoubt = "In the register, to be set right";

    public static string Of(MorningSummary summary)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"Morning of {Shown.Day(summary.Day)}: {summary.Chicks.Count} chicks, {summary.NotWeighed.Count} not weighed yet\n");
        Section(text, summary, Severities.Red, "RED: today, before the next feed");
        Section(text, summary, Severities.Look, "Look: today");
        if (summary.NotWeighed.Count > 0)
            text.Append(CultureInfo.InvariantCulture, $"\nNot weighed yet\n  {string.Join(", ", summary.NotWeighed)}\n");
        Section(text, summary, Severities.Note, "Notes", FindingKinds.NotWeighed);
        if (summary.SeenElsewhere().ToList() is { Count: > 0 } others)
            text.Append(CultureInfo.InvariantCulture, $"\n{NotOfTheRoom}\n{string.Concat(others.Select(code => $"  {code}: {Seen(summary, code)}\n"))}");
        if (summary.Doubts.Count > 0)
            text.Append(CultureInfo.InvariantCulture, $"\n{InDoubt}\n{string.Concat(summary.Doubts.Select(doubt => $"  {doubt.Text}\n"))}");
        text.Append("\nAll\n").Append(Table(summary));
        text.Append("\nWeights are compared, nothing is diagnosed: a chick that looks ill is ill whatever it weighs.\n");
        return text.ToString();
    }

    public static string Word(Stage? stage) => stage switch
    {
        null => "not known",
        Stage.Hatchling => "hatchling",
        Stage.Growing => "growing",
        Stage.Peak => "peak",
        Stage.Weaning => "weaning",
        _ => "weaned",
    };

    public static string? Grams(double? grams) => grams?.ToString("0.0", CultureInfo.InvariantCulture);

    public static string? Percent(double? percent) => percent is { } value ? value.ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture) + " %" : null;

    public static string? Interval(ChickDay chick) => chick.LowGrams is null ? null : $"{Grams(chick.LowGrams)} to {Grams(chick.HighGrams)}";

    public static string Seen(MorningSummary summary, string chick) => string.Join(", ", summary.SeenOf(chick).Select(ObservationKinds.Words));

    private static void Section(StringBuilder text, MorningSummary summary, string severity, string title, string? except = null)
    {
        var findings = summary.Findings.Where(finding => finding.Severity == severity && finding.Kind != except).ToList();
        if (findings.Count == 0)
            return;
        text.Append(CultureInfo.InvariantCulture, $"\n{title}\n");
        foreach (var finding in findings)
            text.Append(CultureInfo.InvariantCulture, $"  [{finding.Kind}] {finding.Text}\n");
    }

    private static string Table(MorningSummary summary)
    {
        var table = new TextTable("chick", ">age", "stage", ">grams", ">gain", ">expected", "95 %", "seen");
        foreach (var chick in summary.Chicks)
        {
            table.Add(
                chick.Chick, chick.AgeDays?.ToString(CultureInfo.InvariantCulture), Word(chick.Stage), Grams(chick.Grams), Percent(chick.GainPercent),
                Grams(chick.ExpectedGrams), Interval(chick), Seen(summary, chick.Chick));
        }

        return table.ToString();
    }
}
