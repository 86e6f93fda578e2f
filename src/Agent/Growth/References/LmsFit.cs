using MathNet.Numerics.LinearAlgebra.Double;

namespace CaptureAgent.Agent.Growth.References;

/// <summary>A weight that a reference is made from.</summary>
/// <param name="Share">How much it counts: the weights of one chick within some twenty days count as one together, for they tell of one chick only.</param>
internal readonly record struct ReferenceWeight(double AgeDays, double Grams, double Share);

/// <summary>What is presumed before any weight is seen, and how firmly.</summary>
/// <param name="LogMedian">ln grams by age, days.</param>
/// <param name="Spread">Coefficient of variation between chicks.</param>
/// <param name="Doubt">Standard deviation of ln median about what is presumed.</param>
internal sealed record ReferencePrior(Func<double, double> LogMedian, double Spread, double Doubt);

/// <summary>L, M and S as smooth functions of age, by penalised likelihood.</summary>
/// <remarks>
/// Cole and Green 1992, Statistics in Medicine 11: 1305: their scores and expected information; splines as in Eilers and Marx 1996. The
/// median is the presumed curve times a smooth factor, the spread likewise, and each is drawn to what is presumed as a Bayesian would
/// have it: few chicks borrow much, many borrow nothing. How smooth: a standard deviation of departure from a straight line over twenty days.
/// </remarks>
internal sealed class LmsFit
{
    public const double WindowDays = 20;

    private const double KnotDays = 7;
    private const int MostRounds = 60;
    private const double Settled = 1e-4;

    /// <summary>A weight further out pulls no harder: a bad one must not bend the reference.</summary>
    private const double FarthestPull = 4;

    /// <summary>
    /// How far the median may bend off what is presumed while chicks are younger than its curve is good for: measured weights lie 16 % off
    /// within the first week (see <see cref="PublishedCurve"/>), which at the same roughness is this much over twenty days.
    /// </summary>
    private const double YoungBend = 0.77;

    private readonly SplineBasis basis;
    private readonly ReferencePrior prior;
    private readonly WeightsOfAge[] ages;
    private readonly double[] median;
    private readonly double[] spread;
    private readonly double[] power;

    /// <param name="weights">At least one.</param>
    public LmsFit(IReadOnlyList<ReferenceWeight> weights, ReferencePrior prior, double lastAge)
    {
        this.prior = prior;
        basis = new SplineBasis(lastAge, KnotDays);
        ages = WeightsOfAge.Grouped(weights, prior, basis);
        (median, spread, power) = (new double[basis.Count], new double[basis.Count], new double[basis.Count]);
        // From the data of the growth table: within a species two series differ by some 12-15 %, spreads by a factor of about 1.5.
        var (ofMedian, ofSpread, ofPower) = (Penalty(0.15, prior.Doubt, YoungBend), Penalty(0.6, 0.5, 0.6), Penalty(0.7, 0.7, 0.7));
        for (var round = 0; round < MostRounds; round++)
        {
            var moved = Improve(median, ofMedian, Part.Median);
            moved = Math.Max(moved, Improve(spread, ofSpread, Part.Spread));
            moved = Math.Max(moved, Improve(power, ofPower, Part.Power));
            if (moved < Settled)
                break;
        }
    }

    private enum Part
    {
        Median,
        Spread,
        Power,
    }

    public Lms At(double age) => new(
        basis.Sum(age, power), Math.Exp(prior.LogMedian(age) + basis.Sum(age, median)), prior.Spread * Math.Exp(basis.Sum(age, spread)));

    // The distribution at an age: power, logarithm of the median, spread.
    private (double Power, double LogMedian, double Spread) At(WeightsOfAge age) => (
        age.Sum(power), age.Presumed + age.Sum(median), prior.Spread * Math.Exp(age.Sum(spread)));

    // Bends cost by their second differences (the integral of the squared second derivative), size by the distance from what is presumed.
    private DenseMatrix Penalty(double bend, double size, double youngBend)
    {
        var penalty = DenseMatrix.CreateDiagonal(basis.Count, basis.Count, basis.KnotDays / (WindowDays * size * size));
        ReadOnlySpan<double> difference = [1, -2, 1];
        for (var first = 0; first + 2 < basis.Count; first++)
        {
            // A motion whose second derivative is white noise of intensity q strays by sqrt(q t^3 / 3) from a straight line in the time t.
            var bends = first * basis.KnotDays < PublishedCurve.JoinedDay ? youngBend : bend;
            var roughness = Math.Pow(WindowDays, 3) / (3 * bends * bends) / Math.Pow(basis.KnotDays, 3);
            for (var i = 0; i < 3; i++)
            {
                for (var j = 0; j < 3; j++)
                    penalty[first + i, first + j] += roughness * difference[i] * difference[j];
            }
        }

        return penalty;
    }

    // One step of Fisher's scoring, halved until the penalised likelihood does not fall. Returns the largest change of a coefficient.
    private double Improve(double[] coefficients, DenseMatrix penalty, Part part)
    {
        var information = (DenseMatrix)penalty.Clone();
        var score = (DenseVector)(-penalty * DenseVector.OfArray(coefficients));
        Gather(part, information.Values, score.Values);
        var step = information.Cholesky().Solve(score);
        double[] before = [.. coefficients];
        var worth = Worth(coefficients, penalty);
        for (var scale = 1.0; scale > 1e-3; scale /= 2)
        {
            for (var i = 0; i < before.Length; i++)
                coefficients[i] = before[i] + scale * step[i];
            if (Worth(coefficients, penalty) >= worth)
                return scale * step.InfinityNorm();
        }

        before.CopyTo(coefficients, 0);
        return 0;
    }

    private void Gather(Part part, double[] information, double[] score)
    {
        foreach (var age in ages)
        {
            var at = At(age);
            var curvature = age.Share * Curvature(part, at.Power, at.Spread);
            var slope = 0.0;
            foreach (var (log, share) in age.Weights)
                slope += share * Slope(part, at, log);
            for (var i = 0; i < SplineBasis.Wide; i++)
            {
                score[age.First + i] += slope * age.Splines[i];
                for (var j = 0; j < SplineBasis.Wide; j++)
                    information[(age.First + i) * basis.Count + age.First + j] += curvature * age.Splines[i] * age.Splines[j];
            }
        }
    }

    private static double Curvature(Part part, double l, double s) => part switch
    {
        Part.Median => (1 + 2 * l * l * s * s) / (s * s),
        Part.Spread => 2,
        _ => 7 * s * s / 4,
    };

    private static double Slope(Part part, (double Power, double LogMedian, double Spread) at, double log)
    {
        var (l, m, s) = at;
        var (x, z) = Drawn(l, log - m, s);
        return part switch
        {
            Part.Median => z / s + l * (z * z - 1),
            Part.Spread => z * z - 1,
            _ => PowerSlope(l, x, s, z),
        };
    }

    // (z / L) (z - x / S) - x (z^2 - 1), whose first term has a limit where L is 0.
    private static double PowerSlope(double l, double x, double s, double z)
    {
        var first = Math.Abs(l * x) < 1e-4 ? z * (x * x / 2 + l * x * x * x / 6) / s : z / l * (z - x / s);
        return first - x * (z * z - 1);
    }

    // A weight beyond the farthest pull counts as if it lay there.
    private static (double X, double Z) Drawn(double l, double x, double s)
    {
        var z = Z(l, x, s);
        if (Math.Abs(z) <= FarthestPull)
            return (x, z);
        z = Math.CopySign(FarthestPull, z);
        var part = l * s * z;
        return (Math.Abs(part) < 1e-9 ? s * z : Math.Log(Math.Max(1e-6, 1 + part)) / l, z);
    }

    private static double Z(double l, double x, double s) => Math.Abs(l * x) < 1e-9 ? x / s : (Math.Exp(l * x) - 1) / (l * s);

    private double Worth(double[] coefficients, DenseMatrix penalty)
    {
        var vector = DenseVector.OfArray(coefficients);
        var worth = -vector.DotProduct(penalty * vector) / 2;
        foreach (var age in ages)
        {
            var (l, m, s) = At(age);
            var logSpread = Math.Log(s);
            foreach (var (log, share) in age.Weights)
            {
                var z = Math.Abs(Z(l, log - m, s));
                // Quadratic near the median, straight beyond the farthest pull.
                var cost = z <= FarthestPull ? z * z / 2 : FarthestPull * (z - FarthestPull / 2);
                worth += share * (l * Drawn(l, log - m, s).X - logSpread - cost);
            }
        }

        return double.IsNaN(worth) ? double.NegativeInfinity : worth;
    }
}
