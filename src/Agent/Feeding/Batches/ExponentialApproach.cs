namespace CaptureAgent.Agent.Feeding.Batches;

/// <summary>What is known of a parameter beforehand: mean and standard deviation; infinite: nothing; zero: it is fixed.</summary>
internal readonly record struct Known(double Mean, double Deviation)
{
    public static Known Nothing { get; } = new(0, double.PositiveInfinity);

    public static Known Exactly(double value) => new(value, 0);
}

/// <summary>y = asymptote + (start - asymptote) exp(-rate x): Newton's law of cooling, and every other approach that slows down as it comes near.</summary>
/// <param name="LogRate">Natural logarithm of the rate.</param>
/// <param name="Covariance">Of start, asymptote and the logarithm of the rate.</param>
/// <param name="SumOfSquares">Of the residuals, unweighted.</param>
internal sealed record ExponentialApproach(double Start, double Asymptote, double LogRate, double[,] Covariance, double SumOfSquares)
{
    private const int Parameters = 3, MostSteps = 200;

    public double Rate => Math.Exp(LogRate);

    public double At(double x) => Asymptote + ((Start - Asymptote) * Math.Exp(-Rate * x));

    /// <summary>Where the curve passes a level; null if it never does.</summary>
    public double? Reaches(double level)
    {
        var ratio = (Start - Asymptote) / (level - Asymptote);
        return ratio >= 1 && double.IsFinite(ratio) ? Math.Log(ratio) / Rate : null;
    }

    /// <summary>Least squares with what is known beforehand as further observations (Levenberg and Marquardt; Press and others, Numerical Recipes, 15.5), from the best of a row of rates.</summary>
    /// <param name="deviation">Standard deviation of one y.</param>
    public static ExponentialApproach Fit(IReadOnlyList<double> x, IReadOnlyList<double> y, double deviation, Known start, Known asymptote, Known logRate)
    {
        Known[] known = [start, asymptote, logRate];
        var reach = Math.Max(x.Max(), 1e-9);
        double[]? best = null;
        var lowest = double.PositiveInfinity;
        for (var log = Math.Log(0.002); log < Math.Log(60); log += 0.25)
        {
            // At a given rate the rest is linear: one step leads to its minimum.
            double[] trial = [Guess(start, y[0]), Guess(asymptote, y[^1]), double.IsFinite(logRate.Deviation) && logRate.Deviation < 0.01 ? logRate.Mean : log - Math.Log(reach)];
            Step(x, y, deviation, known, trial, 0, rateFree: false, out _);
            if (Cost(x, y, deviation, known, trial) is var cost && cost < lowest)
                (best, lowest) = (trial, cost);
        }

        var covariance = Polish(x, y, deviation, known, best!, lowest);
        var residuals = Enumerable.Range(0, x.Count).Sum(i => Math.Pow(y[i] - Value(best!, x[i]), 2));
        return new ExponentialApproach(best![0], best[1], best[2], covariance, residuals);
    }

    private static double Guess(Known known, double otherwise) => double.IsFinite(known.Deviation) ? known.Mean : otherwise;

    private static double[,] Polish(IReadOnlyList<double> x, IReadOnlyList<double> y, double deviation, Known[] known, double[] p, double lowest)
    {
        var damping = 1e-4;
        for (var i = 0; i < MostSteps && damping < 1e12; i++)
        {
            double[] trial = [.. p];
            Step(x, y, deviation, known, trial, damping, rateFree: true, out var relative);
            var cost = Cost(x, y, deviation, known, trial);
            if (!(cost <= lowest))
            {
                damping *= 8;
                continue;
            }

            trial.CopyTo(p, 0);
            lowest = cost;
            damping /= 8;
            if (relative < 1e-13)
                break;
        }

        return Invert(Normal(x, y, deviation, known, p, rateFree: true, out _));
    }

    private static double Value(double[] p, double x) => p[1] + ((p[0] - p[1]) * Math.Exp(-Math.Exp(p[2]) * x));

    private static double Cost(IReadOnlyList<double> x, IReadOnlyList<double> y, double deviation, Known[] known, double[] p)
    {
        var sum = 0.0;
        for (var i = 0; i < x.Count; i++)
            sum += Math.Pow((y[i] - Value(p, x[i])) / deviation, 2);
        for (var j = 0; j < Parameters; j++)
        {
            if (known[j].Deviation > 0)
                sum += Math.Pow((p[j] - known[j].Mean) / known[j].Deviation, 2);
        }

        return sum;
    }

    private static void Step(
        IReadOnlyList<double> x, IReadOnlyList<double> y, double deviation, Known[] known, double[] p, double damping, bool rateFree, out double relative)
    {
        var normal = Normal(x, y, deviation, known, p, rateFree, out var gradient);
        for (var j = 0; j < Parameters; j++)
            normal[j, j] *= 1 + damping;
        var inverse = Invert(normal);
        relative = 0;
        for (var j = 0; j < Parameters; j++)
        {
            var change = Enumerable.Range(0, Parameters).Sum(k => inverse[j, k] * gradient[k]);
            relative = Math.Max(relative, Math.Abs(change) / (Math.Abs(p[j]) + 1e-12));
            p[j] += change;
        }
    }

    // Normal equations; what is fixed has a one of its own on the diagonal and does not move.
    private static double[,] Normal(
        IReadOnlyList<double> x, IReadOnlyList<double> y, double deviation, Known[] known, double[] p, bool rateFree, out double[] gradient)
    {
        var normal = new double[Parameters, Parameters];
        gradient = new double[Parameters];
        var rate = Math.Exp(p[2]);
        Span<double> slope = stackalloc double[Parameters];
        for (var i = 0; i < x.Count; i++)
        {
            var fading = Math.Exp(-rate * x[i]);
            slope[0] = known[0].Deviation > 0 ? fading : 0;
            slope[1] = known[1].Deviation > 0 ? 1 - fading : 0;
            slope[2] = rateFree && known[2].Deviation > 0 ? -(p[0] - p[1]) * rate * x[i] * fading : 0;
            for (var j = 0; j < Parameters; j++)
            {
                gradient[j] += slope[j] * (y[i] - Value(p, x[i])) / (deviation * deviation);
                for (var k = 0; k < Parameters; k++)
                    normal[j, k] += slope[j] * slope[k] / (deviation * deviation);
            }
        }

        for (var j = 0; j < Parameters; j++)
        {
            if (known[j].Deviation == 0 || (j == 2 && !rateFree))
            {
                normal[j, j] = 1;
                continue;
            }

            normal[j, j] += (1 / (known[j].Deviation * known[j].Deviation)) + 1e-300;
            gradient[j] += (known[j].Mean - p[j]) / (known[j].Deviation * known[j].Deviation);
        }

        return normal;
    }

    // By cofactors, after scaling each parameter to its own curvature.
    private static double[,] Invert(double[,] m)
    {
        var scale = new double[Parameters];
        for (var i = 0; i < Parameters; i++)
            scale[i] = Math.Sqrt(Math.Max(m[i, i], 1e-300));
        double At(int i, int j) => m[i, j] / (scale[i] * scale[j]);
        double Cofactor(int i, int j)
        {
            var (a, b, c, d) = ((i + 1) % 3, (i + 2) % 3, (j + 1) % 3, (j + 2) % 3);
            return (At(a, c) * At(b, d)) - (At(a, d) * At(b, c));
        }

        var determinant = (At(0, 0) * Cofactor(0, 0)) + (At(0, 1) * Cofactor(0, 1)) + (At(0, 2) * Cofactor(0, 2));
        if (!(Math.Abs(determinant) > 1e-300))
            determinant = 1e-300;
        var inverse = new double[Parameters, Parameters];
        for (var i = 0; i < Parameters; i++)
        {
            for (var j = 0; j < Parameters; j++)
                inverse[i, j] = Cofactor(j, i) / determinant / (scale[i] * scale[j]);
        }

        return inverse;
    }
}
