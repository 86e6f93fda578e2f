using System.Globalization;
using CaptureAgent.Benchmarks.Settle.Judging;

namespace CaptureAgent.Benchmarks.Settle.Reporting;

/// <summary>Root mean square error (logarithmic) against seconds from release to decision: one dot a method, all families together; the oracle as a curve.</summary>
internal sealed class AccuracyPanel(Drawing drawing)
{
    private const double Left = 75, Right = 545, Top = 60, Bottom = 560;
    private const double LeastError = 0.1, MostError = 1000, MostSeconds = 14;

    public void Draw(IReadOnlyList<Trial> trials)
    {
        drawing.Text(Left, 28, "Accuracy against seconds, all families", bold: true, size: 15);
        drawing.Text(Left, 46, "dot: median seconds; bar: to the 90th percentile; up is worse", size: 12, color: "#555");
        Frame();
        Bound(new BoundScore(trials));
        for (var method = Methods.Names.Count - 1; method >= 0; method--)
            Method(method, new Score(trials, method));
    }

    private void Frame()
    {
        for (var seconds = 0; seconds <= MostSeconds; seconds += 2)
        {
            drawing.Line(X(seconds), Top, X(seconds), Bottom, Chart.GridColor);
            drawing.Text(X(seconds), Bottom + 18, seconds.ToString(CultureInfo.InvariantCulture), "middle");
        }

        for (var error = LeastError; error <= MostError * 1.01; error *= 10)
        {
            drawing.Line(Left, Y(error), Right, Y(error), Chart.GridColor);
            drawing.Text(Left - 8, Y(error) + 4, error.ToString("0.#", CultureInfo.InvariantCulture), "end");
        }

        drawing.Line(Left, Y(1), Right, Y(1), "#888", 1, "5 4");
        drawing.Text(Right - 4, Y(1) - 6, "the band: max(1 d, 0.3 %)", "end", "#666", 12);
        drawing.Text((Left + Right) / 2, Bottom + 42, "seconds from release to decision", "middle");
        drawing.Upwards(24, (Top + Bottom) / 2, "RMS error in bands, wrong records included");
    }

    private void Bound(BoundScore bound)
    {
        (double Seconds, double Error)? last = null;
        foreach (var point in bound.Course.Where(point => !double.IsNaN(point.Error)))
        {
            if (last is { } from)
                drawing.Line(X(from.Seconds), Y(from.Error), X(point.Seconds), Y(point.Error), Chart.OracleColor, 2);
            last = point;
        }

        Legend(Methods.Names.Count, Chart.OracleColor, "oracle, when sure; the curve: whenever asked", hollow: true);
        if (bound.Decided == 0)
            return;
        var (seconds, error) = (bound.Seconds(0.5), bound.Error);
        Whisker(seconds, bound.Seconds(0.9), error, Chart.OracleColor);
        drawing.Dot(X(seconds), Y(error), 6, Chart.OracleColor, hollow: true);
    }

    private void Method(int method, Score score)
    {
        var (seconds, error) = (score.Seconds(0.5), score.Error);
        if (double.IsNaN(seconds) || double.IsNaN(error))
            return;
        var color = Chart.Colors[method];
        Whisker(seconds, score.Seconds(0.9), error, color);
        drawing.Dot(X(seconds), Y(error), method == Methods.Station ? 7 : 6, color);

        Legend(method, color, string.Create(CultureInfo.InvariantCulture, $"{Methods.Names[method]}: {100 * score.RightShare:0.0} % right, {100 * score.WrongShare:0.0} % wrong"));
    }

    // In the upper part, which only the worst could reach: names beside the dots would hide each other.
    private void Legend(int row, string color, string text, bool hollow = false)
    {
        var y = Top + 18 + (22 * row);
        drawing.Dot(Left + 18, y, 5, color, hollow);
        drawing.Text(Left + 32, y + 5, text, color: color, bold: row == Methods.Station);
    }

    private void Whisker(double from, double to, double error, string color)
    {
        drawing.Line(X(from), Y(error), X(to), Y(error), color, 2);
        drawing.Line(X(to), Y(error) - 5, X(to), Y(error) + 5, color, 2);
    }

    private static double X(double seconds) => Left + ((Right - Left) * Math.Clamp(seconds / MostSeconds, 0, 1));

    private static double Y(double error) =>
        Bottom - ((Bottom - Top) * Math.Clamp(Math.Log(error / LeastError) / Math.Log(MostError / LeastError), 0, 1));
}
