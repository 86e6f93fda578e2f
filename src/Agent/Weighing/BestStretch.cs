namespace CaptureAgent.Agent.Weighing;

/// <summary>Of all stretches that end now and began on this level, the one whose weight is known best.</summary>
/// <remarks>A stretch that began too early holds what is left of the step, so that its impulse strays; one that began too late is short: both make the error large.</remarks>
/// <param name="Grams">Its weight.</param>
/// <param name="Error">Standard error of its weight from motion and from the filter's tail, in grams; rounding aside.</param>
/// <param name="From">Index of its first reading.</param>
/// <param name="IsRare">Its readings are too rare to show strides, and were averaged (<see cref="BoutMean"/>).</param>
internal readonly record struct BestStretch(ImpulseLine Line, double Grams, double Error, int From, bool IsRare = false)
{
    public const int LeastReadings = 5;
    private const double LeastSeconds = 0.8;
    private const double StrideSeconds = 0.19;

    /// <summary>Where a stretch of rare readings may begin: with the level, after a sixth of it or after a third. Few, for the least error of many is small by chance.</summary>
    private const int RareBeginnings = 3;

    private const int RareParts = 6;

    /// <param name="least">Seconds that a stretch must have.</param>
    public static bool TryFind(ImpulseSeries series, int from, in FilterDelay delay, double division, out BestStretch best, double least = LeastSeconds)
    {
        best = new BestStretch(default, double.NaN, double.PositiveInfinity, -1);
        var next = 0.0;
        for (var i = from; i <= series.Count - LeastReadings; i++)
        {
            if (series.TimeOf(i) < next)
                continue;
            next = series.TimeOf(i) + StrideSeconds;
            var line = series.Line(i, series.Count, delay.Seconds);
            if (line.Seconds < least)
                break;
            var tail = delay.Error * line.Trend;
            var error = Math.Sqrt(line.MotionError * line.MotionError + tail * tail + Floor(line.Count, division));
            if (error < best.Error)
                best = new BestStretch(line, line.Grams, error, i);
        }

        return best.From >= 0;
    }

    /// <summary>The same of readings that are too rare to show strides, where they are that: all of the level, or its newer part.</summary>
    /// <param name="from">Index of the level's first reading after the filter's tail.</param>
    /// <param name="near">About the weight, in grams.</param>
    /// <param name="limit">Readings further off are a flap.</param>
    public static bool TryFindRare(ImpulseSeries series, int from, in FilterDelay delay, double division, double near, double limit, BoutMean mean, out BestStretch best)
    {
        best = new BestStretch(default, double.NaN, double.PositiveInfinity, -1);
        var n = series.Count - from;
        if (n < BoutMean.LeastReadings || !BoutMean.IsFor(series.Line(from, series.Count, delay.Seconds)))
            return false;
        for (var part = 0; part < RareBeginnings; part++)
        {
            var i = from + part * n / RareParts;
            if (series.Count - i < BoutMean.LeastReadings || !mean.TryFind(series, i, near, limit))
                break;
            var error = Math.Sqrt(mean.Error * mean.Error + Floor(series.Count - i, division));
            if (error < best.Error)
                best = new BestStretch(series.Line(i, series.Count, delay.Seconds), mean.Grams, error, i, IsRare: true);
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
