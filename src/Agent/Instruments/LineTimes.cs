namespace CaptureAgent.Agent.Instruments;

/// <summary>The moments at which lines were sent, from the moments at which they came: a link that delivers late and in lumps is no stillness.</summary>
/// <remarks>
/// A line cannot have been sent after it came, nor much sooner or later after the one before it than the device's own interval; the interval is the mean of many arrivals.
/// A silence longer than any lump is a silence: the line after it was sent when it came. A link that has delivered no lump of late is believed: what is irregular then is the
/// device's own sampling, and an even axis would bend every slope of it.
/// </remarks>
internal sealed class LineTimes
{
    private const int Arrivals = 512;
    private const int FewestArrivals = 8;
    private const double LongestLump = 2.4;

    /// <summary>Share of the interval: two lines that come closer were sent further apart.</summary>
    private const double Together = 0.1;

    /// <summary>Intervals: a line that comes later has waited, or one was lost.</summary>
    private const double Late = 1.9;

    /// <summary>So many lines after a lump the link may bring another.</summary>
    private const int LumpyLines = 100;

    /// <summary>Lets the moments catch up with the arrivals after a lump, slowly.</summary>
    private const double Stretch = 1.03;

    private readonly double[] arrivals = new double[Arrivals];
    private long count, lumpyUntil;
    private double last = double.NaN, arrived, interval;

    public void Reset()
    {
        count = lumpyUntil = 0;
        last = double.NaN;
        interval = 0;
    }

    /// <summary>Seconds at which the next line was sent.</summary>
    public double Next(DateTimeOffset at)
    {
        var now = at.Seconds();
        var known = (int)Math.Min(count, Arrivals);
        var oldest = known == 0 ? now : arrivals[(count - known) % Arrivals];
        arrivals[count++ % Arrivals] = now;
        var silence = now - arrived;
        arrived = now;
        if (double.IsNaN(last) || silence > LongestLump)
        {
            (count, lumpyUntil, interval) = (1, 0, 0);
            arrivals[0] = now;
            return last = last >= now ? last + 1e-3 : now;
        }

        // Counted from the first line of a lump to the first of another: in the middle of one more lines have come than time has passed for.
        var least = Math.Max((now - oldest) / known, 1e-3);
        if (silence >= Together * interval)
            interval = least;

        // Until the interval is known, arrivals are all there is.
        if (known < FewestArrivals)
            return last = now > last ? now : last + 1e-3;
        if (silence < Together * interval)
            lumpyUntil = count + LumpyLines;
        if (count >= lumpyUntil && silence < Late * interval && now > last)
            return last = now;
        return last = Math.Max(last + 0.5 * Math.Min(interval, least), Math.Min(now, last + Stretch * interval));
    }
}
