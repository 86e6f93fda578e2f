using System.Globalization;
using System.Text;
using CaptureAgent.Benchmarks.Settle.Judging;

namespace CaptureAgent.Benchmarks.Settle.Reporting;

/// <summary>One row a family.</summary>
internal static class FamilyTables
{
    /// <summary>The station beside the oracle.</summary>
    public static string Station(IReadOnlyList<Trial> trials)
    {
        var table = new StringBuilder("""
            | family | placings | must | right | wrong | gross | missed | s median | cautious oracle's | oracle's | s p90 | cautious oracle's | oracle's | RMSE in bands | oracle's | ± 2 u % | RMS error / u |
            | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |

            """);
        foreach (var (name, members) in Families(trials))
        {
            var score = new Score(members, Methods.Station);
            table.AppendLine(string.Create(CultureInfo.InvariantCulture, $"""
                | {name} | {score.Placings} | {score.MustRecord} | {score.Right} | {score.Wrong} | {score.Gross} | {score.Missed} | {Cell(score.Seconds(0.5))} | {Cell(score.CautiousSeconds(0.5))} | {Cell(score.OracleSeconds(0.5))} | {Cell(score.Seconds(0.9))} | {Cell(score.CautiousSeconds(0.9))} | {Cell(score.OracleSeconds(0.9))} | {Cell(score.Error)} | {Cell(score.OracleError)} | {Cell(100 * score.Covered)} | {Cell(score.ErrorOverUncertainty)} |
                """));
        }

        return table.ToString();
    }

    /// <summary>Right, wrong and missed of every method.</summary>
    public static string All(IReadOnlyList<Trial> trials)
    {
        var table = new StringBuilder($"| right / wrong / missed | placings | {string.Join(" | ", Methods.Names)} |\n| --- | --- | {string.Concat(Methods.Names.Select(_ => "--- | "))}\n");
        foreach (var (name, members) in Families(trials))
        {
            var cells = Methods.Names.Select((_, method) => new Score(members, method)).Select(score => $"{score.Right} / {score.Wrong} / {score.Missed}");
            table.AppendLine(CultureInfo.InvariantCulture, $"| {name} | {members.Count} | {string.Join(" | ", cells)} |");
        }

        return table.ToString();
    }

    private static IEnumerable<(string Name, IReadOnlyList<Trial> Members)> Families(IReadOnlyList<Trial> trials) =>
    [
        .. trials.GroupBy(trial => trial.Placing.Family).OrderBy(family => family.Key, StringComparer.Ordinal)
            .Select(family => (family.Key, (IReadOnlyList<Trial>)[.. family])),
        ("all", trials),
    ];

    private static string Cell(double value) => double.IsNaN(value) ? "–" : value.ToString("0.00", CultureInfo.InvariantCulture);
}
