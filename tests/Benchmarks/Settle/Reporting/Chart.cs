using CaptureAgent.Benchmarks.Reporting;

namespace CaptureAgent.Benchmarks.Settle.Reporting;

/// <summary>Results/settle.svg: accuracy against seconds for every method, and seconds by family for the station and the oracle.</summary>
internal static class Chart
{
    /// <summary>Of the methods, in the order of <see cref="Methods"/>.</summary>
    public static IReadOnlyList<string> Colors { get; } = ["#0b6e4f", "#c1440e", "#8a3ffc", "#b8860b", "#c2185b"];

    public const string OracleColor = "#1f4e9c";

    public const string GridColor = "#ddd";

    public static void Write(IReadOnlyList<Trial> trials)
    {
        var drawing = new Drawing(1230, 620);
        new AccuracyPanel(drawing).Draw(trials);
        new FamilyPanel(drawing).Draw(trials);
        File.WriteAllText(Path.Combine(ResultFile.Root, "tests", "Benchmarks", "Results", "settle.svg"), drawing.ToString());
    }
}
