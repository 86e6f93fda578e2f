namespace CaptureAgent.Agent.Weighing;

/// <summary>The level of a thing that lies still, or where its readings, which still creep behind the scale's filter, will end.</summary>
/// <remarks>
/// y = L + (a + b·u)·exp(-u/τ) is the tail of a step through two equal stages of time constant τ; b = 0: through one; a = b = 0: none. For each of a row of τ least squares give
/// L, a and b (variable projection: Golub and Pereyra 1973); the models are averaged by their Bayesian information (Schwarz 1978; Hoeting et al. 1999; all from memory),
/// so that a tail which the readings do not show widens the uncertainty no more than it must.
/// </remarks>
internal sealed class Settling
{
    private const int MostReadings = 48;
    private const int LeastReadings = 5;
    private const double LeastSeconds = 0.9;
    private const double FastestSeconds = 0.06;
    private const double SlowestSeconds = 0.6;
    private const double Ratio = 1.22;
    private readonly double[] times = new double[MostReadings];
    private readonly double[] values = new double[MostReadings];
    private readonly List<(double Information, double Level, double Variance)> models = new(64);
    private double pivot, least, best;

    /// <summary>Grams.</summary>
    public double Level { get; private set; }

    /// <summary>Standard uncertainty of <see cref="Level"/>, in grams.</summary>
    public double Error { get; private set; }

    /// <summary>Mean of the seconds at which the readings were taken that show it.</summary>
    public double Moment { get; private set; }

    /// <summary>What the newest reading has still to go, in grams.</summary>
    public double Left { get; private set; }

    /// <param name="span">Seconds that are looked at.</param>
    /// <param name="skip">The newest seconds that are not, for a load may have begun to touch down in them.</param>
    /// <param name="noise">Standard deviation of a reading about its true value, rounding included, in grams.</param>
    /// <returns>False where there are too few readings, or where they do not come to rest like a thing behind a filter.</returns>
    public bool TryFit(Recent recent, double span, double skip, double notBefore, double noise)
    {
        var n = recent.Newest(span, skip, notBefore, LeastReadings, times, values, out pivot);
        if (n < LeastReadings || times[n - 1] - times[0] < LeastSeconds)
            return false;
        models.Clear();
        (least, best) = (double.PositiveInfinity, double.PositiveInfinity);
        Weigh(n, 0, 0, noise);
        for (var order = 1; order <= 2 && n >= order + 3; order++)
        {
            var (nearest, lowest) = (FastestSeconds, double.PositiveInfinity);
            for (var tau = FastestSeconds; tau <= SlowestSeconds; tau *= Ratio)
            {
                var information = Weigh(n, tau, order, noise);
                if (information < lowest)
                    (nearest, lowest) = (tau, information);
            }

            Refine(n, nearest, order, noise);
        }

        double weights = 0, sum = 0, squares = 0, variances = 0;
        foreach (var (information, level, variance) in models)
        {
            var weight = Math.Exp((least - information) / 2);
            weights += weight;
            sum += weight * level;
            squares += weight * level * level;
            variances += weight * variance;
        }

        if (!(best < 4 * noise * noise))
            return false;
        var mean = sum / weights;
        Level = pivot + mean;
        Error = Math.Sqrt(variances / weights + Math.Max(0, squares / weights - mean * mean));
        Left = mean - values[0];
        Moment = recent.LastSeconds - Series.Mean(times.AsSpan(0, n));
        return true;
    }

    // A tall tail tells its time constant more finely than the row does: golden section between the neighbours of the best (Kiefer 1953).
    private void Refine(int n, double nearest, int order, double noise)
    {
        const double Golden = 0.618;
        const int Steps = 10;
        var (low, high) = (nearest / Ratio, nearest * Ratio);
        var (a, b) = (high - Golden * (high - low), low + Golden * (high - low));
        var (atA, atB) = (Weigh(n, a, order, noise), Weigh(n, b, order, noise));
        for (var step = 0; step < Steps; step++)
        {
            if (atA < atB)
            {
                (high, b, atB) = (b, a, atA);
                a = high - Golden * (high - low);
                atA = Weigh(n, a, order, noise);
            }
            else
            {
                (low, a, atA) = (a, b, atB);
                b = low + Golden * (high - low);
                atB = Weigh(n, b, order, noise);
            }
        }
    }

    // Adds one model; gives its information, the less the better.
    private double Weigh(int n, double tau, int order, double noise)
    {
        if (Fit(n, tau, order) is not { } fit)
            return double.PositiveInfinity;
        var information = fit.Squares / (noise * noise) + (order == 0 ? 1 : order + 2) * Math.Log(n) + (order == 0 ? 0 : 2 * Math.Log(12));
        models.Add((information, fit.Level, fit.Factor * noise * noise));
        least = Math.Min(least, information);
        best = Math.Min(best, fit.Squares / n);
        return information;
    }

    // Time counts from the oldest reading, so that nothing overflows. Null: the columns cannot be told apart.
    private (double Level, double Factor, double Squares)? Fit(int n, double tau, int order)
    {
        if (order > 0 && times[n - 1] - times[0] < tau)
            return null;
        double s11 = n, s12 = 0, s13 = 0, s22 = 0, s23 = 0, s33 = 0, r1 = 0, r2 = 0, r3 = 0, yy = 0;
        for (var i = 0; i < n; i++)
        {
            var u = times[n - 1] - times[i];
            var e = order > 0 ? Math.Exp(-u / tau) : 0;
            var f = order > 1 ? u / tau * e : 0;
            var y = values[i];
            s12 += e;
            s13 += f;
            s22 += e * e;
            s23 += e * f;
            s33 += f * f;
            r1 += y;
            r2 += e * y;
            r3 += f * y;
            yy += y * y;
        }

        if (order == 0)
            return (r1 / n, 1.0 / n, Math.Max(0, yy - r1 * r1 / n));

        // Level taken out of the columns first: what is left of them decides.
        var (a22, a23, a33, b2, b3) = (s22 - s12 * s12 / s11, s23 - s12 * s13 / s11, s33 - s13 * s13 / s11, r2 - s12 * r1 / s11, r3 - s13 * r1 / s11);
        double p, q = 0, variance;
        if (order == 1)
        {
            if (a22 < 1e-9)
                return null;
            p = b2 / a22;
            variance = 1 / s11 + s12 * s12 / (s11 * s11) / a22;
        }
        else
        {
            var det = a22 * a33 - a23 * a23;
            if (det < 1e-9 * a22 * a33 || a22 < 1e-9)
                return null;
            p = (b2 * a33 - b3 * a23) / det;
            q = (b3 * a22 - b2 * a23) / det;
            var (m2, m3) = (s12 / s11, s13 / s11);
            variance = 1 / s11 + (m2 * m2 * a33 - 2 * m2 * m3 * a23 + m3 * m3 * a22) / det;
        }

        var level = (r1 - s12 * p - s13 * q) / s11;
        return (level, variance, Math.Max(0, yy - r1 * r1 / s11 - p * b2 - q * b3));
    }
}
