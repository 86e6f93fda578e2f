namespace CaptureAgent.Agent.Weighing;

/// <summary>How far slow means of the force stray: under an animal hardly, under a draught, a towel that touches the bench or a hand by much.</summary>
/// <remarks>
/// An animal stays where it is: not only its momentum but its place is bounded, so that its force falls off with the square of the frequency below its strides.
/// A force of its own (an Ornstein–Uhlenbeck process, say) does not fall off. Means that are blind to strides (<see cref="ImpulseSeries.Smooth"/>) tell them apart, and by far:
/// of strides of 1 Hz they keep nothing, of a wander of a second's memory three quarters. Readings that are too rare to show the strides make white noise of them
/// (mean squared step between readings: von Neumann 1941; the square of the spline's own mean is 11/20 per knot; both from memory).
/// </remarks>
/// <param name="Spread">Standard deviation of the means, in grams; not a number for fewer than two.</param>
/// <param name="White">What it would be if all that differs between neighbouring readings were white noise.</param>
/// <param name="Count">Means, each knot one.</param>
/// <param name="Knot">Seconds between the knots.</param>
internal readonly record struct Wander(double Spread, double White, int Count, double Knot)
{
    /// <summary>Knots of the means that see strides above 1.2 Hz as motion, above 0.6 Hz, and above 0.3 Hz.</summary>
    public const double QuickSeconds = 0.5;

    public const double SlowSeconds = 1;

    public const double SlowestSeconds = 2;

    /// <summary>Slower than any motion of an animal that stays where it is.</summary>
    public const double IdleSeconds = 4;

    /// <summary>The means of neighbouring knots share readings: so many of them are independent (their correlation is 26/66).</summary>
    private const double Independent = 0.8;

    /// <summary>Standard error that such a spread leaves in a mean over <paramref name="seconds"/>, were it all a force that forgets itself within a knot.</summary>
    public double Error(double seconds) => Count < 2 ? 0 : Spread * Math.Sqrt(Knot / 0.55 / seconds);

    /// <summary>No more than rare readings make of strides; few means may be small by chance, so that less is allowed them.</summary>
    public bool IsSampling => Count >= 4 && Spread <= White * Math.Min(1.1, 0.6 + 0.05 * Count);

    /// <summary>A force of its own of this standard deviation would, three times in four, have made a larger spread.</summary>
    /// <remarks>Lower quantile of chi squared after Wilson and Hilferty (1931, from memory).</remarks>
    /// <param name="grams">Of the force.</param>
    public bool IsBelow(double grams)
    {
        const double Quantile = -0.6;
        if (Count < 3)
            return false;
        var part = 2 / (9 * Freedom);
        var root = Math.Max(0.02, 1 - part + Quantile * Math.Sqrt(part));
        return Spread <= grams * Kept * root * Math.Sqrt(root);
    }

    /// <summary>ln of how much likelier a free animal makes this spread than a force of its own.</summary>
    /// <remarks>
    /// By the shape of the spectrum, whatever its size: the share of the slow means in all motion. Log-normal for both, with the sampling error of a standard deviation, 1/(2ν)
    /// of its logarithm's variance, added (Bartlett and Kendall 1946, from memory); a smaller share than an animal's own counts as its own, a larger than a force's as that.
    /// Of an animal's force the strides of 0.7 to 2.5 Hz keep sinc³; of an Ornstein–Uhlenbeck force of about a second's memory that makes most of the motion see <see cref="Kept"/>.
    /// Both shares, and their spreads, are those of three different simulations pooled.
    /// </remarks>
    /// <param name="motion">Standard deviation of all readings, in grams.</param>
    public double Favour(double motion, double division)
    {
        const double AnimalSpread = 0.6;
        const double ForceSpread = 0.45;
        if (Count < 2)
            return 0;
        var white = 0.3 * White * White;
        var animal = Math.Sqrt(Square(AnimalShare * motion) + white + Square(0.05 * division));
        var force = Math.Log(Math.Sqrt(Square(ForceShare * motion) + white) / animal);

        // Where sampling hides the strides nothing can be told.
        if (force < 0.1)
            return 0;
        var found = Math.Clamp(Math.Log(Math.Max(Spread, 1e-9) / animal), 0, force);
        var sampling = 0.5 / Freedom;
        var (asAnimal, asForce) = (AnimalSpread * AnimalSpread + sampling, ForceSpread * ForceSpread + sampling);
        return (Square(found - force) / asForce - found * found / asAnimal + Math.Log(asForce / asAnimal)) / 2;
    }

    /// <param name="level">The weight, in grams.</param>
    /// <param name="limit">Readings further off it are a burst: a mean of few of them tells nothing. One over longer is blind to it.</param>
    public static Wander Of(ImpulseSeries series, int from, double knot, double level, double limit, double division)
    {
        double sum = 0, squares = 0;
        var count = 0;
        var (a, b, c, burst) = (-1, -1, -1, -1);
        var next = double.NegativeInfinity;
        for (var i = from; i < series.Count; i++)
        {
            if (knot < SlowestSeconds && Math.Abs(series.GramsOf(i) - level) > limit)
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
            return new Wander(double.NaN, 0, count, knot);
        var line = series.Line(from, series.Count, 0);
        var white = line.Rough * 0.55 * line.SquaredStep / 2 * line.Seconds / line.Count / knot;
        return new Wander(Math.Sqrt(Math.Max(0, squares - sum * sum / count) / (count - 1)), Math.Sqrt(white + 0.01 * division * division), count, knot);
    }

    private double Freedom => Independent * (Count - 1);

    // Of a force with a second's memory (the double integral of the spline twice and of the force's correlation).
    private double Kept => Knot < SlowSeconds ? 0.88 : Knot < SlowestSeconds ? 0.78 : 0.65;

    private double AnimalShare => Knot < SlowSeconds ? 0.22 : Knot < SlowestSeconds ? 0.11 : 0.05;

    private double ForceShare => 0.8 * Kept;

    private static double Square(double value) => value * value;
}
