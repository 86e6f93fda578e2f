using System.Globalization;
using System.Text;
using CaptureAgent.Benchmarks.Settle.Judging;

namespace CaptureAgent.Benchmarks.Settle.Reporting;

/// <summary>All families together, one column a method.</summary>
internal static class PooledTable
{
    public static string Write(IReadOnlyList<Trial> trials)
    {
        Score[] scores = [.. Methods.Names.Select((_, method) => new Score(trials, method))];
        var table = new StringBuilder();
        table.AppendLine($"| | {string.Join(" | ", Methods.Names)} | to reach |");
        table.AppendLine($"| --- | {string.Concat(scores.Select(_ => "--- | "))}--- |");
        Row("right, of those that must be recorded", "≥ 99.5 %", score => $"{100 * score.RightShare:0.00} %");
        Row("wrong records, of all", "≤ 0.2 %", score => $"{100 * score.WrongShare:0.00} %");
        Row("off by more than 1 % and 2 d, of all", "0", score => $"{100 * score.GrossShare:0.00} %");
        Row("missed or refused, of those that must be recorded", "≤ 0.2 %", score => $"{100 * score.MissedShare:0.00} %");
        Row("missed or refused, of those that the cautious oracle can weigh", "≤ 0.2 %", score => $"{100 * score.MissedWeighableShare:0.00} %");
        Row("seconds from release to decision, median", "", score => $"{score.Seconds(0.5):0.00}");
        Row("× the cautious oracle's", "≤ 1.25", score => $"{score.Seconds(0.5) / score.CautiousSeconds(0.5):0.00}");
        Row("× the oracle's", "", score => $"{score.Seconds(0.5) / score.OracleSeconds(0.5):0.00}");
        Row("seconds, 90th percentile", "", score => $"{score.Seconds(0.9):0.00}");
        Row("× the cautious oracle's", "≤ 1.25", score => $"{score.Seconds(0.9) / score.CautiousSeconds(0.9):0.00}");
        Row("× the oracle's", "", score => $"{score.Seconds(0.9) / score.OracleSeconds(0.9):0.00}");
        Row("RMS error in bands", "", score => $"{score.Error:0.000}");
        Row("× the oracle's", "≤ 1.4", score => $"{score.Error / score.OracleError:0.00}");
        Row("RMS error in bands, of the right ones alone", "", score => $"{score.RightError:0.000}");
        Row("× the oracle's", "", score => $"{score.RightError / score.RightOracleError:0.00}");
        Row("truth within ± 2 u", "≥ 93 %", score => Known(100 * score.Covered, "0.0", " %"));
        Row("RMS of error / u", "0.8 to 1.1", score => Known(score.ErrorOverUncertainty, "0.00", ""));
        Row("truth within ± 2 u, the scale's error drawn within its specification", "≥ 93 %", score => Known(100 * score.SpecifiedCovered, "0.0", " %"));
        Row("RMS of error / u, drawn so, of those within 5 u", "0.8 to 1.1", score => Known(score.SpecifiedRatio, "0.00", ""));
        return table.ToString();

        void Row(string what, string target, Func<Score, FormattableString> cell) =>
            table.AppendLine($"| {what} | {string.Join(" | ", scores.Select(score => cell(score).ToString(CultureInfo.InvariantCulture)))} | {target} |");
    }

    private static FormattableString Known(double value, string format, string unit)
    {
        if (double.IsNaN(value))
            return $"–";
        return $"{value.ToString(format, CultureInfo.InvariantCulture)}{unit}";
    }
}
