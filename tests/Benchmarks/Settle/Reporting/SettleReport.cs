using System.Globalization;
using CaptureAgent.Benchmarks.Settle.Bound;
using CaptureAgent.Benchmarks.Settle.Judging;

namespace CaptureAgent.Benchmarks.Settle.Reporting;

/// <summary>The whole of what is said of a run, as Markdown.</summary>
internal static class SettleReport
{
    public static string Write(SettleArguments arguments, IReadOnlyList<Trial> trials, SettlerCost cost)
    {
        var bound = new BoundScore(trials);
        var station = new Score(trials, Methods.Station);
        var coded = new Score(trials.Where(trial => trial.Placing.CodeAt <= trial.Truth.HandsOffAt), Methods.Station);
        var baselines = Enumerable.Range(1, Methods.Baselines.Count).Select(method => KnownBaselines.Row(Methods.Names[method], new Score(trials, method)));
        return string.Create(CultureInfo.InvariantCulture, $"""
            {trials.Count} placings, seed {arguments.Seed}, each from the bare pan to the lift, played as a recorded trace to the real core (lines of a scale, the chick's code, three
            mornings' weights). The draws of a seed are the same on every machine. ![accuracy against seconds](settle.svg)

            ## All families

            {PooledTable.Write(trials)}
            The settler alone: {cost.Microseconds:0.00} µs and {cost.Bytes:0.0} B a sample ({cost.Samples} samples, one thread; to reach: 20 µs, 0 B).

            - Right: within the band, which is the greater of one division and 0.3 %. Wrong: outside it, or accepted though it must not be.
            - Missed: of the {station.MustRecord} that must be recorded the cautious oracle, which knows when the hands were off, is sure of {station.Weighable} before they come
              back. Of these the agent missed {station.MissedWeighable}, of the others {station.Missed - station.MissedWeighable}.
            - Seconds: from the end of the release to the decision, of the right ones that must be recorded; the oracle's over the same placings. A station cannot
              decide before the code is scanned, which in 40 % of the placings is half a second to three seconds after the release; neither baselines nor oracle wait for it.
              Of those coded before the release alone the agent's median is {coded.Seconds(0.5):0.00} s, {coded.Seconds(0.5) / coded.CautiousSeconds(0.5):0.00} × the cautious oracle's.
            - RMS error: of the placings that may be recorded and that both accept, wrong ones included; the oracle's over the same placings at the same moments.
            - u: of all accepted placings that may be recorded, wrong ones included.

            ## Is the simulation hard enough?

            {KnownBaselines.Head}
            {string.Join('\n', baselines)}

            The baselines are told when the chick comes and about what it weighs, and their tare is the mean of the second and a half before it, in whole divisions.
            Flag and five equal readings have no constants to choose. Those of the moving SD, and the margin of the cautious oracle, were chosen to come near the figures in
            brackets (the former on 1000 placings of seed 1): that these agree proves nothing; that the first two rows do is the check.
            The plain estimator's constants were chosen on another simulation, whose figures for it are near those in brackets. There no hand stays longer than five seconds, fewer placings must not be recorded, and
            the tare is of readings that agree: its row shows what these families add, and is no check.

            ## The bound

            The oracle knows when the hands were off and the scale's filter. Its value is the slope of the cumulated readings of that time, fitted together with the
            filter's tail, less the same for the lined pan. It decides once {Oracle.Margin:0.00} × the slope's standard error (√12 · SD of the residuals / T, where the tail is
            over) is within half the band, after a second at least. Over those that must be recorded it decided {bound.Decided} of {bound.MustRecord}, {bound.Right} within the band, after
            {bound.Seconds(0.5):0.00} s (median) and {bound.Seconds(0.9):0.00} s (90th percentile), with an RMS error of {bound.Error:0.000} bands. The change from there to its
            value of the whole time, over its standard error (margin and rounding included), has a root mean square of {bound.ChangeOverError:0.00}: the margin is set so that it is about 1.

            The cautious oracle takes a margin of {Oracle.CautiousMargin:0.0} and the largest standard error of the last second, and decided after {bound.CautiousSeconds(0.5):0.00} s (median) and {bound.CautiousSeconds(0.9):0.00} s (90th percentile). With it the
            baselines' medians are about as many times the oracle's as on the independent simulation (see above), so that the targets for seconds are held against it.

            | seconds after the release | {string.Join(" | ", bound.Course.Select(point => point.Seconds.ToString(CultureInfo.InvariantCulture)))} |
            | --- | {string.Concat(bound.Course.Select(_ => "--- | "))}
            | its RMS error in bands | {string.Join(" | ", bound.Course.Select(point => point.Error.ToString("0.00", CultureInfo.InvariantCulture)))} |

            ## By family

            {FamilyTables.Station(trials)}
            {FamilyTables.All(trials)}
            """);
    }
}
