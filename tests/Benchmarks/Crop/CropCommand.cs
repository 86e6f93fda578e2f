using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Events;
using CaptureAgent.Benchmarks.Reporting;

namespace CaptureAgent.Benchmarks.Crop;

/// <summary>How often a feed that nobody recorded is caught by the weight, and how often a chick with an empty crop is refused for nothing.</summary>
internal static class CropCommand
{
    private const int DefaultCount = 2000;

    private static readonly Nursery[] After =
    [
        new("scatter 2 %, correlated 0.7", 0.020, 0.7, 0, 8, 60, 30),
        new("scatter 1.7 %, correlated 0.5", 0.017, 0.5, 0, 8, 60, 30),
        new("scatter 1.5 %, independent", 0.015, 0, 0, 8, 60, 30),
        new("scatter 1.5 %, independent, species not known", 0.015, 0, 0, 8, 60, 30, SpeciesKnown: false),
        new("scatter 1.5 %, independent, one morning in ten missed", 0.015, 0, 0.1, 12, 60, 30),
        new("scatter 1.5 %, independent, known for ten days", 0.015, 0, 0, 15, 60, 10),
        new("scatter 1 %, independent", 0.010, 0, 0, 8, 60, 30),
        new("scatter 2 %, independent", 0.020, 0, 0, 8, 60, 30),
        new("scatter 2 %, independent, species not known", 0.020, 0, 0, 8, 60, 30, SpeciesKnown: false),
        new("scatter 3 %, independent", 0.030, 0, 0, 8, 60, 30),
    ];

    private static readonly Nursery FirstWeek = new("first week, scatter 4 %", 0.040, 0, 0, 2, 7, 7);

    /// <returns>Exit code; null if the arguments make no sense.</returns>
    public static int? Run(IReadOnlyList<string> words)
    {
        var (count, seed) = (DefaultCount, 1UL);
        if (words.Count > 0 && !int.TryParse(words[0], CultureInfo.InvariantCulture, out count)
            || words.Count > 1 && !ulong.TryParse(words[1], CultureInfo.InvariantCulture, out seed) || words.Count > 2 || count < 10)
            return null;
        var load = Machine.Load();
        var report = Report(count, seed);
        if (count >= DefaultCount)
            ResultFile.Write("crop", Machine.Describe(load, Path.GetTempPath()), report);
        else
            Console.WriteLine(report);
        return 0;
    }

    private static string Report(int count, ulong seed)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"""
            {count} chicks a nursery, seed {seed}, each weighed once through the real core (lines of a scale, the code, the history), with an empty crop, with 8 %
            of its weight in the crop, and with 8 to 12 %; the feed was never recorded. Ages 8 to 60 days on published curves of 44 species, each chick with its
            own size and time, a slow loss after the peak. "Residual" is the SD of an unfed morning about what the agent expected: the figure to reach holds
            where it is 2 %. "Told" are those for which the weight was let to speak at all. Rejections of unfed chicks are those for any reason.

            To reach at a residual of 2 %: fed (8 % and more) caught >= 95 %, unfed rejected <= 1 %. The baselines: the feed clock alone (no card, no feed), 3 % and
            5 % above the trend of the last four weights.

            | nursery | residual | unfed rejected | caught, 8 % | caught, 8 to 12 % | told | clock alone: rejected, caught | trend + 3 % | trend + 5 % |
            | --- | --- | --- | --- | --- | --- | --- | --- | --- |

            """);
        foreach (var nursery in After)
            text.Append(Row(nursery, CropTrial.Run(nursery, count, seed)));
        var young = CropTrial.Run(FirstWeek, count, seed);
        text.Append(CultureInfo.InvariantCulture, $"""

            {FirstWeek.Name}: unfed rejected {Percent(young, trial => Rejected(trial.Unfed))}, fed caught {Percent(young, trial => AfterFeed(trial.Ordinary))}; the verdict says that it
            rests on the feed clock in {Percent(young, trial => trial.Unfed.Crop is { Basis: "feed-clock" } crop && crop.Text.Contains("rests on the feed clock", StringComparison.Ordinal))} of the weighings (3 % above the trend would
            reject {Percent(young, trial => trial.Plain >= Math.Log(1.03))} of the unfed).
            """);
        return text.ToString();
    }

    private static string Row(Nursery nursery, CropTrial[] trials)
    {
        var known = trials.Where(trial => !double.IsNaN(trial.Excess)).Select(trial => trial.Excess).ToArray();
        var mean = known.Average();
        var residual = Math.Sqrt(known.Average(excess => (excess - mean) * (excess - mean)));
        return string.Create(CultureInfo.InvariantCulture, $"""
            | {nursery.Name} | {100 * residual:0.00} % (mean {100 * mean:+0.00;-0.00} %) | {Percent(trials, trial => Rejected(trial.Unfed))} | {Percent(trials, trial => AfterFeed(trial.Smallest))} | {Percent(trials, trial => AfterFeed(trial.Ordinary))} | {Percent(trials, trial => !double.IsNaN(trial.Excess))} | 0 %, 0 % | {Baseline(trials, 0.03)} | {Baseline(trials, 0.05)} |

            """);
    }

    private static string Baseline(CropTrial[] trials, double above) =>
        $"{Percent(trials, trial => trial.Plain >= Math.Log(1 + above))}, {Percent(trials, trial => trial.Plain + Math.Log(1 + trial.OrdinaryFill) >= Math.Log(1 + above))}";

    private static bool Rejected(WeighingEvent told) => told.Verdict == "rejected";

    private static bool AfterFeed(WeighingEvent told) => told.Reasons.Contains("after-feed");

    private static string Percent(CropTrial[] trials, Func<CropTrial, bool> counts) =>
        string.Create(CultureInfo.InvariantCulture, $"{100.0 * trials.Count(counts) / trials.Length:0.0} %");
}
