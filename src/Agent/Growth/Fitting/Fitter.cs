using CaptureAgent.Agent.Growth.Models;

namespace CaptureAgent.Agent.Growth.Fitting;

/// <summary>Fits growth models to the weights of one chick. Holds buffers: one object a thread.</summary>
/// <remarks>
/// Unweighted least squares on grams, as published growth parameters are (Ricklefs 1967). A weight that cannot belong is left out and
/// named: an isolated one far off its neighbours at once, others by the test of the largest deletion residual (Cook and Weisberg 1982, 2.2.2).
/// </remarks>
internal sealed class Fitter
{
    /// <summary>An asymptote above this many times the heaviest weight is a guess about the future.</summary>
    private const double FarAsymptote = 3;

    // As far out as five standard deviations of a normal residual: real weights never follow a curve exactly, and a milder one does a fit little harm.
    private const double OutlierDeviations = 5;

    private readonly LeastSquares squares = new();
    private double[] ages = [];
    private double[] grams = [];
    private double[] leverages = [];
    private readonly List<int> kept = [];

    /// <param name="ageDays">Rising.</param>
    /// <param name="weights">Grams, one an age.</param>
    /// <param name="leavesOut">Whether weights that cannot belong are left out.</param>
    /// <returns>Null where there are too few weights to begin with.</returns>
    public GrowthFit? Fit(GrowthModel model, ReadOnlySpan<double> ageDays, ReadOnlySpan<double> weights, bool leavesOut = true)
    {
        List<int> leftOut = [];
        if (leavesOut)
            StrayWeights.Find(weights, leftOut);
        while (true)
        {
            Keep(ageDays, weights, leftOut);
            var n = kept.Count;
            if (n <= model.Parameters)
                return null;
            var fit = FitKept(model, n, leftOut);
            if (!leavesOut || leftOut.Count >= Math.Max(1, weights.Length / 10) || fit.Unscaled is null || Outlier(fit, n) is not { } outlier)
                return fit;
            leftOut.Add(kept[outlier]);
            leftOut.Sort();
        }
    }

    /// <summary>The same, of the weights up to the chick's peak: see <see cref="Peak"/>.</summary>
    public GrowthFit? FitToPeak(GrowthModel model, ReadOnlySpan<double> ageDays, ReadOnlySpan<double> weights)
    {
        var count = Peak.CountTo(ageDays, weights);
        return Fit(model, ageDays[..count], weights[..count]);
    }

    private GrowthFit FitKept(GrowthModel model, int n, List<int> leftOut)
    {
        var x = ages.AsSpan(0, n);
        var y = grams.AsSpan(0, n);
        var parameters = new double[model.Parameters];
        var isMinimum = model.Parameters == 3 ? FromStart(model, x, y, parameters) : FromThree(model, x, y, parameters);
        var unscaled = squares.Unscaled(model, x, y, parameters, leverages.AsSpan(0, n));
        var fit = new GrowthFit(model, parameters, unscaled, squares.Rss, Math.Sqrt(squares.Rss / (n - model.Parameters)), n, [.. leftOut], null);
        return fit with { Doubt = Doubt(fit, isMinimum, y), NoEnd = EndOfGrowth.WhyNotShown(model, parameters, x, y) };
    }

    private bool FromStart(GrowthModel model, ReadOnlySpan<double> x, ReadOnlySpan<double> y, Span<double> parameters)
    {
        Start.Find(model, x, y, parameters);
        return squares.Minimise(model, x, y, parameters);
    }

    // The shape has no start of its own: from each of the three curves that it holds, and the lowest sum counts.
    private bool FromThree(GrowthModel model, ReadOnlySpan<double> x, ReadOnlySpan<double> y, Span<double> parameters)
    {
        Span<double> tried = stackalloc double[LeastSquares.MostParameters];
        var (best, isMinimum) = (double.PositiveInfinity, false);
        foreach (var shape in (ReadOnlySpan<double>)[2, 1.05, 0.75])
        {
            tried[3] = shape;
            Start.Find(model, x, y, tried);
            var found = squares.Minimise(model, x, y, tried);
            if (squares.Rss < best * (1 - 1e-9) || found && !isMinimum && squares.Rss <= best * (1 + 1e-9))
            {
                (best, isMinimum) = (squares.Rss, found);
                tried.CopyTo(parameters);
            }

            // The first is nearly always right; the others are for series that it cannot follow.
            if (found && shape == 2)
                break;
        }

        squares.Evaluate(model, x, y, parameters);
        return isMinimum;
    }

    private static string? Doubt(GrowthFit fit, bool isMinimum, ReadOnlySpan<double> y)
    {
        var heaviest = y[0];
        foreach (var weight in y)
            heaviest = Math.Max(heaviest, weight);
        if (fit.Parameters[1] <= 0 || fit.Asymptote <= 0)
            return "the weights do not rise as a growth curve does";
        if (!(fit.Asymptote < FarAsymptote * heaviest))
            return $"the weights show no bend towards a final weight yet: {Times(fit.Asymptote / heaviest)} the heaviest weight would fit them as well as any";
        if (!isMinimum)
            return "no set of parameters fits the weights best";
        if (!(fit.StandardError(0) < fit.Asymptote))
            return "the standard error of the final weight is larger than that weight itself";
        return null;
    }

    private static string Times(double ratio) =>
        ratio < 1000 ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{ratio:0.#} times") : "more than a thousand times";

    // The weight with the largest deletion residual, if that is too large for chance. Student's t is made normal by Wallace's formula (1959).
    private int? Outlier(GrowthFit fit, int n)
    {
        var df = n - fit.Model.Parameters - 1;
        if (df < 3)
            return null;
        int? worst = null;
        var largest = OutlierDeviations;
        for (var i = 0; i < n; i++)
        {
            var open = Math.Max(1e-9, 1 - leverages[i]);
            var residual = grams[i] - fit.Grams(ages[i]);
            var variance = (fit.Rss - residual * residual / open) / df;
            var t2 = residual * residual / (open * Math.Max(variance, fit.Rss * 1e-9));
            var deviations = (8.0 * df + 1) / (8.0 * df + 3) * Math.Sqrt(df * Math.Log(1 + t2 / df));
            if (deviations > largest)
                (largest, worst) = (deviations, i);
        }

        return worst;
    }

    private void Keep(ReadOnlySpan<double> ageDays, ReadOnlySpan<double> weights, List<int> leftOut)
    {
        if (ages.Length < weights.Length)
            (ages, grams, leverages) = (new double[weights.Length], new double[weights.Length], new double[weights.Length]);
        kept.Clear();
        for (var i = 0; i < weights.Length; i++)
        {
            if (leftOut.Contains(i))
                continue;
            (ages[kept.Count], grams[kept.Count]) = (ageDays[i], weights[i]);
            kept.Add(i);
        }
    }
}
