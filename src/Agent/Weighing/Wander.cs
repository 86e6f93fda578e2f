namespace CaptureAgent.Agent.Weighing;

/// <summary>How far slow means of the force stray: under an animal hardly, under a draught, a towel that touches the bench or somebody who steadies the pan by much.</summary>
/// <remarks>
/// An animal stays where it is: not only its momentum but its place is bounded, so that its force falls off with the square of the frequency below its strides.
/// A force of its own (an Ornstein–Uhlenbeck process, say) does not fall off. Means that are blind to strides (<see cref="ImpulseSeries.Smooth"/>) tell them apart, and by far:
/// of strides of 1 Hz they keep nothing, of a wander of a second's memory three quarters. Readings that are too rare to show the strides make white noise of them, and that
/// much must be allowed (mean squared step between readings: von Neumann 1941; the square of the spline's own mean is 11/20 per knot; both from memory).
/// A mean over a burst tells nothing.
/// </remarks>
/// <param name="Spread">Standard deviation of the means, in grams.</param>
/// <param name="White">What it would be if all that differs between neighbouring readings were white noise.</param>
/// <param name="Count">Means, each knot one.</param>
internal readonly record struct Wander(double Spread, double White, int Count)
{
    /// <summary>Knots of the means that see strides above 1.2 Hz as motion; and of those that need longer, and see strides above 0.6 Hz so.</summary>
    public const double QuickSeconds = 0.5;

    public const double SlowSeconds = 1;

    /// <summary>Standard error that such a spread leaves in a mean over <paramref name="seconds"/>, were it all a force that forgets itself within a knot.</summary>
    public double Error(double seconds) => Count < 2 ? 0 : Spread * Math.Sqrt(SlowSeconds / 0.55 / seconds);

    /// <summary>No wander, or no more than rare readings make of strides; few means may be small by chance, so that less is allowed them.</summary>
    /// <param name="most">Grams.</param>
    public bool IsWithin(double most) => Spread <= most || Spread <= White * Math.Min(1.1, 0.6 + 0.05 * Count);

    /// <param name="level">The weight, in grams.</param>
    /// <param name="limit">Readings further off it are a burst.</param>
    public static Wander Of(ImpulseSeries series, int from, double knot, double level, double limit, double division)
    {
        double sum = 0, squares = 0;
        var count = 0;
        var (a, b, c, burst) = (-1, -1, -1, -1);
        var next = double.NegativeInfinity;
        for (var i = from; i < series.Count; i++)
        {
            if (Math.Abs(series.GramsOf(i) - level) > limit)
                burst = i;
            if (series.TimeOf(i) < next)
                continue;
            next = series.TimeOf(i) + knot - 0.01;
            if (a > burst)
            {
                var mean = series.Smooth(a, b, c, i) - level;
                sum += mean;
                squares += mean * mean;
                count++;
            }

            (a, b, c) = (b, c, i);
        }

        if (count < 2)
            return new Wander(double.NaN, 0, count);
        var line = series.Line(from, series.Count, 0);
        var white = line.Rough * 0.55 * line.SquaredStep / 2 * line.Seconds / line.Count / knot;
        return new Wander(Math.Sqrt(Math.Max(0, squares - sum * sum / count) / (count - 1)), Math.Sqrt(white + 0.01 * division * division), count);
    }
}
