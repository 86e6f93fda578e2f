using System.Text.Json;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Thriving;

namespace CaptureAgent.Agent.Commands;

/// <summary>The morning summary as JSON. What is not known is null, never left out.</summary>
internal static class MorningJson
{
    public static void Write(MorningSummary summary, Stream output)
    {
        using (var json = new Utf8JsonWriter(output))
        {
            json.WriteStartObject();
            json.WriteString("date", Shown.Day(summary.Day));
            json.WriteStartArray("findings");
            foreach (var finding in summary.Findings)
                Write(json, finding);
            json.WriteEndArray();
            json.WriteStartArray("notWeighed");
            foreach (var code in summary.NotWeighed)
                json.WriteStringValue(code);
            json.WriteEndArray();
            json.WriteStartArray("chicks");
            foreach (var chick in summary.Chicks)
                Write(json, chick, summary.SeenOf(chick.Chick));
            json.WriteEndArray();
            json.WriteStartArray("observations");
            foreach (var seen in summary.Seen)
                Write(json, seen);
            json.WriteEndArray();
            json.WriteStartArray("register");
            foreach (var (chick, doubt) in summary.Doubts)
            {
                json.WriteStartObject();
                json.WriteString("chick", chick);
                json.WriteString("text", doubt);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        output.Write("\n"u8);
    }

    private static void Write(Utf8JsonWriter json, GrowthFinding finding)
    {
        json.WriteStartObject();
        json.WriteString("chick", finding.Chick);
        json.WriteString("finding", finding.Kind);
        json.WriteString("severity", finding.Severity);
        json.WriteString("text", finding.Text);
        Number(json, "grams", finding.Grams, 3);
        Number(json, "expectedGrams", finding.ExpectedGrams, 3);
        Number(json, "lowGrams", finding.LowGrams, 3);
        Number(json, "highGrams", finding.HighGrams, 3);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Sighting seen)
    {
        json.WriteStartObject();
        json.WriteString("chick", seen.Chick);
        json.WriteString("at", EventJson.Moment(seen.At));
        json.WriteString("observation", seen.Kind);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, ChickDay chick, IEnumerable<string> seen)
    {
        json.WriteStartObject();
        json.WriteString("chick", chick.Chick);
        if (chick.AgeDays is { } age)
            json.WriteNumber("ageDays", age);
        else
            json.WriteNull("ageDays");
        json.WriteString("stage", chick.Stage?.Word());
        Number(json, "grams", chick.Grams, 3);
        Number(json, "gainPercent", chick.GainPercent, 2);
        Number(json, "ratePercentPerDay", chick.RatePercentPerDay, 2);
        Number(json, "expectedGrams", chick.ExpectedGrams, 3);
        Number(json, "lowGrams", chick.LowGrams, 3);
        Number(json, "highGrams", chick.HighGrams, 3);
        json.WriteStartArray("seen");
        foreach (var kind in seen)
            json.WriteStringValue(kind);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Number(Utf8JsonWriter json, string name, double? value, int decimals)
    {
        if (value is { } number && double.IsFinite(number))
            json.WriteNumber(name, Math.Round(number, decimals));
        else
            json.WriteNull(name);
    }
}
