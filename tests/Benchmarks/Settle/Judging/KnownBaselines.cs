using System.Globalization;

namespace CaptureAgent.Benchmarks.Settle.Judging;

/// <summary>What the baselines score on an independent simulation of the same families: a simulation on which they do better is too kind to be believed.</summary>
internal static class KnownBaselines
{
    /// <summary>Percentage points by which a figure may differ.</summary>
    private const double Tolerance = 5;

    /// <summary>Its constants were chosen there, and it errs where the families differ: near or not, its figures check nothing.</summary>
    private const string OnlyCompared = "plain estimator";

    // Right, wrong, gross, missed in per cent; then median and 90th percentile of the seconds as multiples of the oracle's.
    private static readonly Dictionary<string, double[]> Known = new()
    {
        ["stability flag"] = [51, 16, 13, 34, 1.2, 1.5],
        ["five equal readings"] = [49, 21, 18, 30, 1.2, 1.6],
        ["moving SD"] = [82, 15, 11, 6, 1.6, 1.1],
        [OnlyCompared] = [99.5, 0.43, 0.14, 0.16, 1.32, 1.29],
    };

    /// <summary>A row of a table: each figure beside the known one, and whether all shares are within the tolerance.</summary>
    public static string Row(string method, Score score)
    {
        double[] found = [100 * score.RightShare, 100 * score.WrongShare, 100 * score.GrossShare, 100 * score.MissedShare];
        var known = Known[method];
        var cells = found.Zip(known, (mine, other) => string.Create(CultureInfo.InvariantCulture, $"{mine:0.0} ({other:0.##})"));
        var near = found.Zip(known, (mine, other) => Math.Abs(mine - other) <= Tolerance).All(within => within);
        var check = method == OnlyCompared ? "for comparison" : near ? "yes" : "no";
        var (median, tenth) = (score.Seconds(0.5) / score.CautiousSeconds(0.5), score.Seconds(0.9) / score.CautiousSeconds(0.9));
        return string.Create(CultureInfo.InvariantCulture,
            $"| {method} | {string.Join(" | ", cells)} | {check} | {median:0.00} ({known[4]}) | {tenth:0.00} ({known[5]}) |");
    }

    public static string Head => string.Create(CultureInfo.InvariantCulture, $"""
        | % (in brackets: on an independent simulation) | right | wrong | off by more than 1 % and 2 d | missed | all within {Tolerance:0} points | median s × the cautious oracle's | 90th percentile × |
        | --- | --- | --- | --- | --- | --- | --- | --- |
        """);
}
