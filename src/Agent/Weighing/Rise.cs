namespace CaptureAgent.Agent.Weighing;

/// <summary>How long a load's weight took to come: a hand that lowers and lets go at once, smeared by the scale's filter, or one that stopped on the way.</summary>
/// <param name="Seconds">From 15 % to 92 % of the level; not a number if it never rose.</param>
/// <param name="ReachedAt">When it reached 92 % for good.</param>
internal readonly record struct Rise(double Seconds, double ReachedAt)
{
    private const double Low = 0.15;
    private const double High = 0.92;

    /// <summary>From the first reading above 15 % of <paramref name="level"/> to the last below 92 % before <paramref name="until"/>.</summary>
    public static Rise To(ReadOnlySpan<double> seconds, ReadOnlySpan<double> grams, double level, double until)
    {
        double first = double.NaN, last = double.NaN;
        for (var i = 0; i < seconds.Length && seconds[i] <= until; i++)
        {
            if (double.IsNaN(first) && grams[i] >= Low * level)
                first = Crossing(seconds, grams, i, Low * level);
            if (grams[i] >= High * level && (i == 0 || grams[i - 1] < High * level))
                last = Crossing(seconds, grams, i, High * level);
        }

        return new Rise(last - first, last);
    }

    private static double Crossing(ReadOnlySpan<double> seconds, ReadOnlySpan<double> grams, int i, double level)
    {
        if (i == 0 || grams[i] <= grams[i - 1])
            return seconds[i];
        var share = (level - grams[i - 1]) / (grams[i] - grams[i - 1]);
        return seconds[i - 1] + Math.Clamp(share, 0, 1) * (seconds[i] - seconds[i - 1]);
    }
}
