namespace CaptureAgent.Agent.Weighing;

/// <summary>Of all stretches that end now and began on this level, the one whose weight is known best.</summary>
/// <remarks>A stretch that began too early holds what is left of the step, so that its impulse strays; one that began too late is short: both make the error large.</remarks>
/// <param name="Error">Standard error of its weight from motion and from the filter's tail, in grams; rounding aside.</param>
/// <param name="From">Index of its first reading.</param>
internal readonly record struct BestStretch(ImpulseLine Line, double Error, int From)
{
    public const int LeastReadings = 5;
    private const double LeastSeconds = 0.8;
    private const double StrideSeconds = 0.19;

    public static bool TryFind(ImpulseSeries series, int from, in FilterDelay delay, double division, out BestStretch best)
    {
        best = new BestStretch(default, double.PositiveInfinity, -1);
        var next = 0.0;
        for (var i = from; i <= series.Count - LeastReadings; i++)
        {
            if (series.TimeOf(i) < next)
                continue;
            next = series.TimeOf(i) + StrideSeconds;
            var line = series.Line(i, series.Count, delay.Seconds);
            if (line.Seconds < LeastSeconds)
                break;
            var tail = delay.Error * line.Trend;
            var error = Math.Sqrt(line.MotionError * line.MotionError + tail * tail + Floor(line.Count, division));
            if (error < best.Error)
                best = new BestStretch(line, error, i);
        }

        return best.From >= 0;
    }

    // Few rounded readings may agree by chance.
    private static double Floor(int count, double division)
    {
        var error = 0.15 * division / Math.Sqrt(Math.Min(count, 16) / 4.0);
        return error * error;
    }
}
