namespace CaptureAgent.Agent.Weighing;

/// <summary>A force that does not average out as an animal's does: a draught, a towel that touches the bench, somebody who steadies the pan.</summary>
/// <remarks>
/// An animal's momentum is bounded, so that the means of stretches four times as long stray a quarter as far; those of white noise (slow sampling) stray half as far,
/// those of a slow force nearly as far. The ratio tells which it is (as the variance of Allan 1966 tells kinds of noise by their slope over the averaging time; from memory).
/// Where the long ones stray too far, the error of the whole is theirs over the root of their number.
/// </remarks>
internal static class Wander
{
    private const double ShortSeconds = 0.5;
    private const double LongSeconds = 2;

    /// <summary>Ratios of an animal's momentum, with what chance adds, and of a force of its own.</summary>
    private const double Bounded = 0.4;

    private const double Unbounded = 0.6;

    /// <summary>Standard error that such a force leaves in the mean from <paramref name="from"/> on, in grams; 0 where there is none, or too little to tell.</summary>
    public static double Error(ImpulseSeries series, int from, double grams, double delay)
    {
        var seconds = series.TimeOf(series.Count - 1) - series.TimeOf(from);
        if (seconds < 1.5 * LongSeconds)
            return 0;
        var brief = Strays(series, from, grams, delay, ShortSeconds);
        var lasting = Strays(series, from, grams, delay, LongSeconds);
        var share = Math.Clamp((lasting / brief - Bounded) / (Unbounded - Bounded), 0, 1);
        return brief > 0 ? share * lasting * Math.Sqrt(LongSeconds / seconds) : 0;
    }

    /// <summary>How far the impulse strays, for so much motion, against the most that an animal's does: above 1 it is no animal's.</summary>
    /// <remarks>A chick that moves at f Hz strays by 1/(2πf) of its motion, however long it is watched: 0.1 to 0.25 s. Under a force of its own, or where slow readings make white noise of
    /// the motion, the impulse walks at random, and strays with the root of the time (random walk about its line: √(interval·T/15)).</remarks>
    /// <param name="motion">Standard deviation of the readings, in grams, beyond rounding and the scale's.</param>
    public static double Foreign(in ImpulseLine line, double motion, double band)
    {
        const double LeastSeconds = 1.8;
        const double LeastMotion = 0.8;
        if (line.Seconds < LeastSeconds || motion < LeastMotion * band)
            return 0;
        var animal = Math.Min(0.42, 0.25 + 0.02 * (line.Seconds - 2));
        var interval = line.Seconds / line.Count;
        var slow = Math.Clamp((interval - 0.12) / 0.28, 0, 1);
        var white = slow * 1.3 * Math.Sqrt(interval * line.Seconds / 15);
        return line.Strays / motion / Math.Max(animal, white);
    }

    // Root mean square of the means of stretches of so many seconds about the weight, in grams.
    private static double Strays(ImpulseSeries series, int from, double grams, double delay, double lag)
    {
        double squares = 0;
        var (count, b) = (0, from);
        for (var a = from; a < series.Count; a++)
        {
            while (b < series.Count && series.TimeOf(b) - series.TimeOf(a) < lag - 0.01)
                b++;
            if (b >= series.Count)
                break;
            var off = series.MeanOf(a, b, delay) - grams;
            squares += off * off;
            count++;
        }

        return count == 0 ? 0 : Math.Sqrt(squares / count);
    }
}
