namespace CaptureAgent.Agent.Weighing;

/// <summary>The level about which a thing at rest sways slowly: a tub that rocks, a towel's edge that swings, a fan's hum that the readings show as a slow beat.</summary>
/// <remarks>
/// At its crest a sway of 0.3 Hz lies still for a second, and looks like a level. y = L + a·cos 2πft + b·sin 2πft by least squares for each of a row of frequencies, and nearer the best of them; the levels are
/// averaged by their information, as <see cref="Settling"/> does, so that less than a whole cycle widens the uncertainty by what it leaves open. Taken for sway only where it
/// explains nearly all that the readings stray by.
/// </remarks>
internal sealed class Sway
{
    /// <summary>Two fifths of the slowest cycle, half of a common one.</summary>
    public const double LeastSeconds = 2;

    private const int MostReadings = 64;
    private const int LeastReadings = 8;
    private const double SlowestHertz = 0.18;
    private const double FastestHertz = 1.6;

    /// <summary>Between neighbouring frequencies a sway gets out of step by so many cycles over the whole stretch (an oversampling of three, as least-squares spectra are searched: Lomb 1976; from memory).</summary>
    private const double Step = 1.0 / 3;

    /// <summary>What is left of a sway is rounding, and what the scale strays by at rest: so many times the variance of rounding (a choice).</summary>
    private const double MostLeft = 2.5;

    /// <summary>Share of the readings' variance that may be left: a step leaves more.</summary>
    private const double Left = 0.08;

    /// <summary>What has passed its middle only once may be a step, smoothed by the filter.</summary>
    private const int LeastCrossings = 2;

    /// <summary>Share of the amplitude by which a reading is on one side of the middle.</summary>
    private const double Aside = 0.3;

    private readonly double[] times = new double[MostReadings];
    private readonly double[] values = new double[MostReadings];
    private double least, best, amplitude, weights, sum, squares, variances;

    /// <summary>Grams.</summary>
    public double Level { get; private set; }

    /// <summary>Standard uncertainty of <see cref="Level"/>, in grams.</summary>
    public double Error { get; private set; }

    /// <summary>Mean of the seconds at which the readings were taken that show it.</summary>
    public double Moment { get; private set; }

    /// <summary>Of the sway, from the level to the crest, in grams.</summary>
    public double Amplitude { get; private set; }

    /// <param name="span">Seconds that are looked at.</param>
    /// <param name="skip">The newest seconds that are not.</param>
    /// <param name="noise">Standard deviation of a reading about its true value, rounding included, in grams.</param>
    /// <returns>False where the readings are too few, or no sway.</returns>
    public bool TryFit(Recent recent, double span, double skip, double notBefore, double noise)
    {
        var n = recent.Newest(span, skip, notBefore, 0, times, values, out var pivot);
        if (n < LeastReadings || times[n - 1] - times[0] < LeastSeconds)
            return false;
        var mean = Series.Mean(values.AsSpan(0, n));
        var all = Series.Squares(values.AsSpan(0, n), mean);
        if (all < n * 4 * noise * noise)
            return false;
        (least, best, amplitude) = (double.PositiveInfinity, double.PositiveInfinity, 0);
        (weights, sum, squares, variances) = (0, 0, 0, 0);
        var step = Step / (times[n - 1] - times[0]);
        var nearest = SlowestHertz;
        for (var hertz = SlowestHertz; hertz <= FastestHertz; hertz += step)
            nearest = Weigh(n, hertz, noise) ? hertz : nearest;
        for (var width = step / 2; width > step / 20; width /= 2)
            nearest = nearest - width >= SlowestHertz && Weigh(n, nearest - width, noise) ? nearest - width : Weigh(n, nearest + width, noise) ? nearest + width : nearest;
        if (!(best < Math.Max(Left * all, MostLeft * n * noise * noise)))
            return false;
        var level = sum / weights;
        if (Crossings(n, level, Aside * amplitude) < LeastCrossings)
            return false;
        (Level, Amplitude) = (level + pivot, amplitude);
        Moment = recent.LastSeconds - Series.Mean(times.AsSpan(0, n));
        Error = Math.Sqrt(variances / weights + Math.Max(0, squares / weights - level * level));
        return true;
    }

    // Adds one frequency; true where it is the best so far.
    private bool Weigh(int n, double hertz, double noise)
    {
        if (Fit(n, hertz) is not { } fit)
            return false;
        var information = fit.Squares / (noise * noise);
        var isBest = information < least;
        if (isBest)
        {
            // All before count for less by as much.
            var share = Math.Exp((information - Math.Min(least, 1e300)) / 2);
            (weights, sum, squares, variances) = (weights * share, sum * share, squares * share, variances * share);
            (least, best, amplitude) = (information, fit.Squares, fit.Amplitude);
        }

        var weight = Math.Exp((least - information) / 2);
        weights += weight;
        sum += weight * fit.Level;
        squares += weight * fit.Level * fit.Level;
        variances += weight * fit.Factor * Math.Max(noise * noise, fit.Squares / Math.Max(1, n - 4));
        return isBest;
    }

    private int Crossings(int n, double level, double aside)
    {
        var (side, crossings) = (0, 0);
        for (var i = 0; i < n; i++)
        {
            var off = values[i] - level;
            var now = off > aside ? 1 : off < -aside ? -1 : side;
            crossings += side != 0 && now != side ? 1 : 0;
            side = now;
        }

        return crossings;
    }

    // Normal equations of three columns, the level taken out of the other two first.
    private (double Level, double Factor, double Squares, double Amplitude)? Fit(int n, double hertz)
    {
        double c = 0, s = 0, y = 0, cc = 0, cs = 0, ss = 0, cy = 0, sy = 0, yy = 0;
        for (var i = 0; i < n; i++)
        {
            var (sine, cosine) = Math.SinCos(2 * Math.PI * hertz * times[i]);
            c += cosine;
            s += sine;
            y += values[i];
            cc += cosine * cosine;
            cs += cosine * sine;
            ss += sine * sine;
            cy += cosine * values[i];
            sy += sine * values[i];
            yy += values[i] * values[i];
        }

        var (a11, a12, a22) = (cc - c * c / n, cs - c * s / n, ss - s * s / n);
        var (b1, b2) = (cy - c * y / n, sy - s * y / n);
        var det = a11 * a22 - a12 * a12;
        if (det < 1e-6 * a11 * a22 || !(a11 > 1e-9))
            return null;
        var (a, b) = ((b1 * a22 - b2 * a12) / det, (b2 * a11 - b1 * a12) / det);
        var (mc, ms) = (c / n, s / n);
        var factor = 1.0 / n + (mc * mc * a22 - 2 * mc * ms * a12 + ms * ms * a11) / det;
        return (y / n - a * mc - b * ms, factor, Math.Max(0, yy - y * y / n - a * b1 - b * b2), Math.Sqrt(a * a + b * b));
    }
}
