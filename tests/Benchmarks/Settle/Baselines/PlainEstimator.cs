using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Benchmarks.Settle.Baselines;

/// <summary>A plain estimator as one writes in an hour: the mean of the longest stretch up to now that has settled, is known well enough and looks free of hands.</summary>
/// <remarks>
/// No rule of common practice and of no source: it stands for what is gained with little effort, given the weight to expect. Its constants are those with which it was measured
/// on the independent simulation of <see cref="Judging.KnownBaselines"/>, where every hand is off five seconds after the chick came; here some stay on longer.
/// </remarks>
internal sealed class PlainEstimator(ScaleSpecification scale, double expectedGrams) : IBaseline
{
    /// <summary>A mean is taken of no less.</summary>
    private const double LeastSeconds = 1;

    private const int LeastReadings = 4;

    /// <summary>Nor of more: only the last count.</summary>
    private const double MostSeconds = 22;

    /// <summary>Between two looks at the readings.</summary>
    private const double LookSeconds = 0.08;

    /// <summary>By which a stretch begins later than the one before.</summary>
    private const double StepSeconds = 0.12;

    // A stretch begins once the scale should have come, by its filter, to within a share of the band.
    private const double LoweringSeconds = 0.25, FilterShare = 0.7, SettledTo = 1 / 4.0, LeastStepGrams = 8;

    // A stretch is no less than these shares of the time since the load came, and of what of it is beyond the longest hold.
    private const double LeastOfAll = 0.3, LeastOfUnheld = 0.65;

    /// <summary>A mean further from the expected weight (logarithm of the ratio) is not this chick's.</summary>
    private const double Implausible = 0.26;

    // For so long it may yet turn out otherwise: a stretch shorter than the one, with the load on for less than the other.
    private const double DoubtfulStretch = 2.5, DoubtfulLoad = 9;

    private readonly double interval = 1 / scale.SampleHertz;
    private readonly PlainLoad load = new(1 / scale.SampleHertz, expectedGrams, (double)scale.DivisionGrams);
    private double nextLook;
    private bool refused;

    public double? Add(in ScaleSample sample, double net, bool loaded, double division)
    {
        if (refused || !load.Add(sample.Seconds, net) || (load.Readings.Length > 1 && sample.Seconds < nextLook))
            return null;
        nextLook = sample.Seconds + LookSeconds;
        return Decide(load.Readings, sample.Seconds - load.CameAt, division);
    }

    public void Clear() => load.Clear();

    private double? Decide(ReadOnlySpan<double> readings, double elapsed, double division)
    {
        var least = (int)Math.Max(LeastReadings, Math.Ceiling(LeastSeconds / interval));
        var first = First(readings, least, division);
        var step = Math.Max(1, (int)(StepSeconds / interval));
        for (var start = first; readings.Length - start >= least; start += step)
        {
            var window = new PlainWindow(readings, start, step, interval, division);
            if (start > first && (window.Seconds < LeastOfAll * elapsed || window.Seconds < LeastOfUnheld * (elapsed - PlainHands.LongestHold)))
                return null;
            var unexpected = Math.Abs(Math.Log(window.Mean / expectedGrams));
            if (!window.IsKnown || !window.IsSettled || !PlainHands.AreOff(window, elapsed, unexpected))
                continue;
            if (unexpected <= Implausible)
                return window.Mean;
            if (window.Seconds < DoubtfulStretch && elapsed < DoubtfulLoad)
                continue;
            refused = true;
            return null;
        }

        return null;
    }

    private int First(ReadOnlySpan<double> readings, int least, double division)
    {
        var grams = readings[^1];
        var ratio = Math.Max(LeastStepGrams, grams) / (SettledTo * PlainWindow.BandOf(grams, division));
        var settledAfter = LoweringSeconds + (FilterShare * scale.FilterSeconds * scale.FilterOrder * Math.Log(ratio));
        var settled = Math.Max(0, Math.Min(readings.Length - least, (int)(settledAfter / interval)));
        return Math.Max(settled, readings.Length - (int)(MostSeconds / interval));
    }
}
