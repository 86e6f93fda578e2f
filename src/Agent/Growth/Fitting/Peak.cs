namespace CaptureAgent.Agent.Growth.Fitting;

/// <summary>Up to where a series grows: parrot chicks pass a peak and lose weight until weaned, which no growth curve describes.</summary>
/// <remarks>Ricklefs 1968, Ibis 110: 419: curves are fitted up to the peak, and the recession is told apart.</remarks>
internal static class Peak
{
    private const int Window = 5;
    private const double Lost = 0.97;
    private const double DaysAfter = 3;

    /// <summary>How many weights, from the first, lie up to the peak and the day after it; all where no peak has been passed.</summary>
    public static int CountTo(ReadOnlySpan<double> ageDays, ReadOnlySpan<double> grams)
    {
        if (grams.Length < 2 * Window)
            return grams.Length;
        var (at, peak, last) = (0, 0.0, 0.0);
        for (var i = 0; i < grams.Length; i++)
        {
            last = MedianAround(grams, i);
            if (last > peak)
                (at, peak) = (i, last);
        }

        if (last > Lost * peak || ageDays[^1] - ageDays[at] < DaysAfter)
            return grams.Length;
        var count = at + 1;
        while (count < grams.Length && ageDays[count] <= ageDays[at] + 1)
            count++;
        return count;
    }

    // The medians of the last places would see the ends only: there the window stays whole.
    private static double MedianAround(ReadOnlySpan<double> grams, int i)
    {
        Span<double> near = stackalloc double[Window];
        grams.Slice(Math.Clamp(i - Window / 2, 0, grams.Length - Window), Window).CopyTo(near);
        near.Sort();
        return near[Window / 2];
    }
}
