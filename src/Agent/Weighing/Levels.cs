namespace CaptureAgent.Agent.Weighing;

/// <summary>Finds where the level of a load changed: a kink of its impulse.</summary>
/// <remarks>
/// The best split in two lines, by the difference of their slopes over its standard error (Hinkley 1970, Inference about the change-point in a sequence of random
/// variables; from memory). The error is that of the momentum (<see cref="ImpulseLine"/>), so that motion, which averages out, is no step.
/// </remarks>
internal static class Levels
{
    /// <summary>Of a difference by chance: once in some ten thousand splits.</summary>
    private const double StepRatio = 4.5;

    private const double LeastSeconds = 0.55;
    private const int LeastReadings = 4;

    /// <summary>How far back a step is looked for: an older one would have been found.</summary>
    private const double BackSeconds = 8;

    /// <summary>The rise, or the filter's tail, at the beginning of the older level is none of it.</summary>
    private const double RiseSeconds = 2.2;

    private const double StrideSeconds = 0.27;

    /// <returns>Index of the first reading of the newer level; -1: no step.</returns>
    public static int Step(ImpulseSeries series, int from, in FilterDelay delay, double division)
    {
        var (best, found) = (StepRatio, -1);
        var end = series.TimeOf(series.Count - 1);
        var next = Math.Max(series.TimeOf(from) + LeastSeconds / 2, end - BackSeconds);
        for (var k = from + 3; k <= series.Count - LeastReadings && end - series.TimeOf(k) >= LeastSeconds; k++)
        {
            if (series.TimeOf(k) < next)
                continue;
            next = series.TimeOf(k) + StrideSeconds;
            var newer = series.Line(k, series.Count, delay.Seconds);
            var older = Older(series, from, k, delay);
            var strays = Math.Sqrt((older.Squares + newer.Squares) / Math.Max(1, older.Count + newer.Count - 4));
            var tail = delay.Error * (Math.Abs(newer.Trend) + Math.Abs(older.Trend));
            var error = Math.Sqrt(Square(ImpulseLine.LargestError(strays, older.Seconds)) + Square(ImpulseLine.LargestError(strays, newer.Seconds)) + tail * tail + 0.04 * division * division);
            var difference = Math.Abs(newer.Grams - older.Grams);
            if (difference < Math.Max(division, 0.0015 * Math.Abs(newer.Grams)) || difference / error <= best)
                continue;
            (best, found) = (difference / error, k);
        }

        return found;
    }

    // The older level, from where it is best known.
    private static ImpulseLine Older(ImpulseSeries series, int from, int to, in FilterDelay delay)
    {
        var best = series.Line(from, to, delay.Seconds);
        var stride = 0.3;
        var next = series.TimeOf(from) + stride;
        for (var i = from + 1; i <= to - LeastReadings && series.TimeOf(i) - series.TimeOf(from) < RiseSeconds; i++)
        {
            if (series.TimeOf(i) < next)
                continue;
            stride *= 1.4;
            next = series.TimeOf(i) + stride;
            var line = series.Line(i, to, delay.Seconds);
            if (line.Seconds < LeastSeconds)
                break;
            if (line.MotionError < best.MotionError)
                best = line;
        }

        return best;
    }

    private static double Square(double value) => value * value;
}
