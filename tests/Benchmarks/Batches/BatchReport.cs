using System.Globalization;

namespace CaptureAgent.Benchmarks.Batches;

/// <summary>The figures as tables, each with what is asked and with the baseline.</summary>
internal static class BatchReport
{
    private const double Near = 0.3;

    public static string Write(
        int count, ulong seed, IReadOnlyList<Dip> dips, IReadOnlyList<DangerousBatch> dangerous, IReadOnlyList<GoodBatch> good, IReadOnlyList<FalseStop> wide,
        IReadOnlyList<AbsentProbe> absent, IReadOnlyList<CoolingError> cooling, IReadOnlyList<PutBack> back, IReadOnlyList<PutElsewhere> elsewhere) => string.Create(CultureInfo.InvariantCulture, $"""
        {count} dangerous batches of seed {seed}; probes with constants of 2 to 12 s, two in five with a sheath (a second constant of up to 0.4 of the first), noise of 0.01 to 0.05 °C,
        half of the bowls stirred (flutter of up to 0.12 °C); constants differ by 2.5 % from dip to dip. All lines go through the whole core.

        ## Settled value at {Settling.Constants} time constants and eight readings or more (0.1 °C, 2 to 4 readings a second), within ±{Near} °C

        | | dips | forecast | three points | last reading | asked |
        | --- | --- | --- | --- | --- | --- |
        {Row("first dips", dips.Where(dip => dip.First), "≥ 85 %")}
        {Row("... one constant", dips.Where(dip => dip is { First: true, Sheathed: false }), "")}
        {Row("... with a sheath", dips.Where(dip => dip is { First: true, Sheathed: true }), "")}
        {Row("later dips", dips.Where(dip => !dip.First), "≥ 95 %")}
        {Row("... one constant", dips.Where(dip => dip is { First: false, Sheathed: false }), "")}
        {Row("... with a sheath", dips.Where(dip => dip is { First: false, Sheathed: true }), "")}

        Truth within two standard uncertainties of the forecast: {Share(dips, dip => Math.Abs(dip.Error) <= 2 * dip.Uncertainty)}. Dips that were not noticed at all by then: {dips.Count(dip => double.IsNaN(dip.Error))} (a probe still warm, put into something as warm).

        ## A dangerous batch (42.55 to 52 °C; 0.1 and 0.5 °C, 1 to 4 readings a second; first dips)

        | | agent | last reading against thresholds | asked |
        | --- | --- | --- | --- |
        | called in range while at the stop line or above | {dangerous.Count(one => one.FalselyInRange)} of {dangerous.Count} | {dangerous.Count(one => one.NaivelyInRange)} | 0 |
        | `stop` after, median, time constants | {At(dangerous.Select(one => one.StopAfter), 0.5):0.00} | {At(dangerous.Select(one => one.NaiveStopAfter), 0.5):0.00} | ≤ 0.6 |
        | `stop` after, 90th percentile | {At(dangerous.Select(one => one.StopAfter), 0.9):0.00} | {At(dangerous.Select(one => one.NaiveStopAfter), 0.9):0.00} | ≤ 1.3 |
        | never called `stop` | {dangerous.Count(one => double.IsInfinity(one.StopAfter))} | {dangerous.Count(one => double.IsInfinity(one.NaiveStopAfter))} | |
        | ... of those, hot for longer than three time constants | {dangerous.Count(one => double.IsInfinity(one.StopAfter) && one.HotFor > 3)} | {dangerous.Count(one => double.IsInfinity(one.NaiveStopAfter) && one.HotFor > 3)} | |

        ## A good batch (39 to 40.8 °C): what the caution costs

        | | agent |
        | --- | --- |
        | called `stop` for a moment | {Share(good, one => one.Stopped)} of {good.Count} |
        | ... in batches of 34 to 42.4 °C / of those below 41.5 °C | {Share(wide, one => one.Stopped)} of {wide.Count} / {Share([.. wide.Where(one => one.Celsius < 41.5)], one => one.Stopped)} of {wide.Count(one => one.Celsius < 41.5)} |
        | first settled answer, median / 90 %, time constants | {At(good.Select(one => one.Settled), 0.5):0.0} / {At(good.Select(one => one.Settled), 0.9):0.0} |
        | `in-range` (second reading, in one place), median / 90 %, s | {At(good.Select(one => one.InRange), 0.5):0} / {At(good.Select(one => one.InRange), 0.9):0} |
        | never in range within 110 s | {good.Count(one => double.IsInfinity(one.InRange))} |
        | in range while the probe was more than 0.5 °C below | {good.Count(one => one.Early)} |

        ## The probe taken out, or its link lost

        | | batches | no longer in range after, median / largest, s | later than allowed | in range again while out |
        | --- | --- | --- | --- | --- |
        {Gone("taken out", absent.Where(one => !one.Link))}
        {Gone("link lost", absent.Where(one => one.Link))}

        ## Lifted out of a batch in range for 2 to 9.9 s

        | put into | batches | the state changed | taken for a new batch | `stop` after, median / 90 % / largest, time constants | in range until, median / largest, time constants | called in range |
        | --- | --- | --- | --- | --- | --- | --- |
        | the same | {back.Count} | {Share(back, one => one.Changed)} | {back.Count(one => one.Anew)} | | | |
        | one of 42.55 to 52 °C | {elsewhere.Count} | | | {At(elsewhere.Select(one => one.StopAfter), 0.5):0.00} / {At(elsewhere.Select(one => one.StopAfter), 0.9):0.00} / {At(elsewhere.Select(one => one.StopAfter), 1):0.00} | {At(elsewhere.Select(one => one.DoubtAfter), 0.5):0.00} / {At(elsewhere.Select(one => one.DoubtAfter), 1):0.00} | {elsewhere.Count(one => one.FalselyInRange)} |

        ## When it falls below the band, from three minutes of readings

        | | agent | straight line | asked |
        | --- | --- | --- | --- |
        | median error, s | {At(cooling.Select(one => one.Error), 0.5):0} | {At(cooling.Select(one => one.LineError), 0.5):0} | |
        | median of error / max(60 s, 10 % of the time ahead) | {At(cooling.Select(one => one.Error / Allowed(one)), 0.5):0.00} | {At(cooling.Select(one => one.LineError / Allowed(one)), 0.5):0.00} | ≤ 1 |
        | within max(60 s, 10 %) | {Share(cooling, one => one.Error <= Allowed(one))} | {Share(cooling, one => one.LineError <= Allowed(one))} | |
        | truth in the 95 % interval | {Share(cooling, one => one.Held)} | | |
        """);

    private static double Allowed(CoolingError one) => Math.Max(60, 0.1 * one.Ahead);

    private static string Row(string what, IEnumerable<Dip> some, string asked)
    {
        var dips = some.ToList();
        return $"| {what} | {dips.Count} | {Share(dips, dip => Math.Abs(dip.Error) <= Near)} | {Share(dips, dip => Math.Abs(dip.ThreePoints) <= Near)} | {Share(dips, dip => Math.Abs(dip.LastReading) <= Near)} | {asked} |";
    }

    private static string Gone(string what, IEnumerable<AbsentProbe> some)
    {
        var absent = some.ToList();
        return string.Create(CultureInfo.InvariantCulture,
            $"| {what} | {absent.Count} | {At(absent.Select(one => one.After), 0.5):0.0} / {At(absent.Select(one => one.After), 1):0.0} | {absent.Count(one => one.After > one.Allowed)} | {absent.Count(one => one.Again)} |");
    }

    private static string Share<T>(IReadOnlyCollection<T> all, Func<T, bool> which) =>
        string.Create(CultureInfo.InvariantCulture, $"{100.0 * all.Count(which) / Math.Max(1, all.Count):0.0} %");

    // Nearest rank.
    private static double At(IEnumerable<double> values, double share)
    {
        var sorted = values.Order().ToList();
        return sorted.Count == 0 ? double.NaN : sorted[Math.Clamp((int)Math.Ceiling(share * sorted.Count) - 1, 0, sorted.Count - 1)];
    }
}
