using CaptureAgent.Simulators.Physics.Placings;
using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Benchmarks.Settle.Bound;

/// <summary>The bound: knows when the hands were off and the scale's filter, and sees the same readings as everybody, when they arrive.</summary>
/// <remarks>
/// Value: <see cref="TailFit"/> over the readings taken while the hands were off, less the same fit over the lined pan before the chick came.
/// Decision: the first moment at which <see cref="Margin"/> times the fit's standard error is within half the acceptance band.
/// The cautious decision takes <see cref="CautiousMargin"/> and the largest standard error of the last second, for the moment at which an error looks small is chosen because it does.
/// Neither waits for the code nor for anything that waiting cannot better (rounding, tare, the scale's own error).
/// </remarks>
internal sealed class Oracle(Placing placing, double lowered, IReadOnlyList<Delivered> readings)
{
    /// <summary>Calibrated: with it the change from the value at the decision to that of the whole time, over the standard error at the decision, has a root mean square of about 1 (see the results).</summary>
    public const double Margin = 1.0;

    /// <summary>With it the baselines take as many times the oracle's seconds as they do on an independent simulation (see <see cref="Judging.KnownBaselines"/>).</summary>
    public const double CautiousMargin = 2.5;

    /// <summary>No animal's momentum is known from less: about one breath or one shift of the feet.</summary>
    private const double LeastSeconds = 1;

    private const double WorstOfSeconds = 1;

    /// <summary>Moments after the release at which the course of its accuracy is noted.</summary>
    public static IReadOnlyList<double> CourseSeconds { get; } = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 10, 12, 14];

    private readonly PlacingTruth truth = placing.Truth;
    private readonly double wanted = placing.Truth.Band(placing.Scale.DivisionGrams) / 2;

    /// <param name="moments">Of the methods' decisions.</param>
    public OracleResult Run(IReadOnlyList<double?> moments)
    {
        var tare = Tare();
        Answer? stop = null, cautious = null;
        Queue<(double Seconds, double Error)> errors = [];
        List<(double ArrivesAt, double Grams)> path = [];
        var fit = new TailFit(placing.Scale.FilterSeconds, placing.Scale.FilterOrder, tare + truth.NetGrams);
        foreach (var (arrivesAt, sample) in readings)
        {
            if (sample.Seconds < truth.HandsOffAt || sample.Seconds >= truth.HandsBackAt || sample.Range != ShownRange.Within)
                continue;
            fit.Add(sample.Seconds, (double)sample.Value);
            if (!fit.CanSolve)
                continue;
            var (grams, error) = fit.Solve();
            path.Add((arrivesAt, grams - tare));
            errors.Enqueue((sample.Seconds, error));
            while (errors.Peek().Seconds < sample.Seconds - WorstOfSeconds)
                errors.Dequeue();
            if (fit.Seconds < LeastSeconds)
                continue;
            if (Margin * error <= wanted)
                stop ??= new(arrivesAt, grams - tare, WithRounding(Margin * error));
            if (cautious is null && errors.Max(one => one.Error) is var worst && CautiousMargin * worst <= wanted)
                cautious = new(arrivesAt, grams - tare, WithRounding(CautiousMargin * worst));
        }

        // A decision before the oracle had anything is held against what it had at its own.
        double At(double? moment) => moment is not { } at ? double.NaN
            : path.FindLastIndex(known => known.ArrivesAt <= at) is >= 0 and var i ? path[i].Grams : stop?.Grams ?? double.NaN;

        return new(stop, cautious, path.Count == 0 ? double.NaN : path[^1].Grams, [.. moments.Select(At)], [.. CourseSeconds.Select(seconds => Course(path, truth.HandsOffAt + seconds))]);
    }

    private double Course(List<(double ArrivesAt, double Grams)> path, double at)
    {
        var i = path.FindLastIndex(known => known.ArrivesAt <= at);
        return i < 0 || at > truth.HandsBackAt ? double.NaN : path[i].Grams;
    }

    private double Tare()
    {
        var lined = placing.LinedAt();
        var before = readings.Select(reading => reading.Sample)
            .Where(sample => sample.Seconds >= lined && sample.Seconds < lowered && sample.Range == ShownRange.Within)
            .ToList();

        // With the scale's own tare, what was shown before it does not count.
        before = [.. before.Where(sample => sample.IsNet == before[^1].IsNet)];
        var fit = new TailFit(placing.Scale.FilterSeconds, placing.Scale.FilterOrder, (double)before[^1].Value);
        foreach (var sample in before)
            fit.Add(sample.Seconds, (double)sample.Value);
        return fit.CanSolve ? fit.Solve().Grams : (double)before[^1].Value;
    }

    // Where nothing moves, rounding is all that is left: d/√12 (JCGM 100, F.2.2.1).
    private double WithRounding(double standardError) =>
        Math.Sqrt((standardError * standardError) + ((double)(placing.Scale.DivisionGrams * placing.Scale.DivisionGrams) / 12));
}
