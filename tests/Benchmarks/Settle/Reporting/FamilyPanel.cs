using System.Globalization;
using CaptureAgent.Benchmarks.Settle.Judging;

namespace CaptureAgent.Benchmarks.Settle.Reporting;

/// <summary>Seconds from release to decision, one row a family that must be recorded: the station, below it the two oracles.</summary>
internal sealed class FamilyPanel(Drawing drawing)
{
    private const double Left = 850, Right = 1090, Top = 60, Bottom = 560, MostSeconds = 24;
    private const string CautiousColor = "#777";

    public void Draw(IReadOnlyList<Trial> trials)
    {
        drawing.Text(600, 28, "Seconds by family", bold: true, size: 15);
        drawing.Text(600, 46, "from above: capture agent, cautious oracle, oracle; bar: median to 90th percentile", size: 12, color: "#555");
        drawing.Text(Right + 12, 34, "RMSE in bands", size: 12, color: "#555");
        drawing.Text(Right + 12, 48, "(oracle's then)", size: 12, color: "#555");
        for (var seconds = 0; seconds <= MostSeconds; seconds += 4)
        {
            drawing.Line(X(seconds), Top, X(seconds), Bottom, Chart.GridColor);
            drawing.Text(X(seconds), Bottom + 18, seconds.ToString(CultureInfo.InvariantCulture), "middle");
        }

        drawing.Text((Left + Right) / 2, Bottom + 42, "seconds from release to decision", "middle");
        var families = trials.Where(trial => trial.Truth.MustRecord).GroupBy(trial => trial.Placing.Family)
            .OrderBy(family => family.Key, StringComparer.Ordinal).ToList();
        for (var i = 0; i < families.Count; i++)
            Row(Top + ((i + 0.5) * (Bottom - Top) / families.Count), families[i].Key, new Score(families[i], Methods.Station));
    }

    private void Row(double y, string family, Score score)
    {
        drawing.Text(Left - 12, y + 4, family, "end");
        if (double.IsNaN(score.Seconds(0.5)))
            return;
        Bar(y - 7, score.Seconds(0.5), score.Seconds(0.9), Chart.Colors[Methods.Station], hollow: false);
        Bar(y, score.CautiousSeconds(0.5), score.CautiousSeconds(0.9), CautiousColor, hollow: true);
        Bar(y + 7, score.OracleSeconds(0.5), score.OracleSeconds(0.9), Chart.OracleColor, hollow: true);
        drawing.Text(Right + 12, y + 4, string.Create(CultureInfo.InvariantCulture, $"{score.Error:0.00} ({score.OracleError:0.00})"), size: 12);
    }

    private void Bar(double y, double median, double tenth, string color, bool hollow)
    {
        drawing.Line(X(median), y, X(tenth), y, color, 2);
        drawing.Dot(X(median), y, 3.5, color, hollow);
    }

    private static double X(double seconds) => Left + ((Right - Left) * Math.Clamp(seconds / MostSeconds, 0, 1));
}
