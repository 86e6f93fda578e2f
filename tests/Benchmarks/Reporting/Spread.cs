using System.Globalization;

namespace CaptureAgent.Benchmarks.Reporting;

/// <summary>How a set of durations is spread, in milliseconds.</summary>
internal sealed class Spread
{
    private readonly double[] sorted;

    public Spread(IEnumerable<double> milliseconds)
    {
        sorted = [.. milliseconds.Order()];
        if (sorted.Length == 0)
            throw new InvalidOperationException("Nothing was measured.");
    }

    public int Count => sorted.Length;

    public double Median => At(0.5);

    public double P99 => At(0.99);

    /// <summary>The smallest value that at least this share of all does not exceed (nearest rank).</summary>
    public double At(double share) => sorted[Math.Clamp((int)Math.Ceiling(share * sorted.Length) - 1, 0, sorted.Length - 1)];

    /// <summary>A row of a table: what, count, median, p90, p99, largest.</summary>
    public string Row(string what) => string.Create(
        CultureInfo.InvariantCulture, $"| {what} | {Count} | {Median:0.00} | {At(0.9):0.00} | {P99:0.00} | {sorted[^1]:0.00} |");

    public static string Head => """
        | from ... to | count | median ms | p90 ms | p99 ms | largest ms |
        | --- | --- | --- | --- | --- | --- |
        """;
}
