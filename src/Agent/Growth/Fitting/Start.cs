using CaptureAgent.Agent.Growth.Models;

namespace CaptureAgent.Agent.Growth.Fitting;

/// <summary>Where a fit begins: no value is given by hand.</summary>
/// <remarks>The asymptote is linear in every model, so that for any rate and inflection its best value is known; the best of a grid of those two is the start (variable projection, Golub and Pereyra 1973).</remarks>
internal static class Start
{
    // The time from 10 % to 90 % of the asymptote, and the age of inflection, by the span of the ages.
    private static readonly double[] Durations = [0.25, 0.5, 0.8, 1.2, 2, 3.5];
    private static readonly double[] Inflections = [-0.1, 0.1, 0.22, 0.35, 0.5, 0.7, 1, 1.5];

    private const int MostPoints = 16;

    /// <summary>Sets asymptote, rate and inflection; a fourth parameter is taken as it is given.</summary>
    public static void Find(GrowthModel model, ReadOnlySpan<double> ages, ReadOnlySpan<double> grams, Span<double> parameters)
    {
        var (first, span) = (ages[0], Math.Max(1, ages[^1] - ages[0]));
        var every = (ages.Length + MostPoints - 1) / MostPoints;
        Span<double> tried = stackalloc double[LeastSquares.MostParameters];
        parameters.CopyTo(tried);
        tried = tried[..parameters.Length];
        var best = double.PositiveInfinity;
        foreach (var duration in Durations)
        {
            tried[1] = 1;
            tried[1] = model.Days10To90(tried) / (duration * span);
            foreach (var inflection in Inflections)
            {
                tried[2] = first + inflection * span;
                var rss = Project(model, ages, grams, every, tried);
                if (rss < best)
                {
                    best = rss;
                    tried.CopyTo(parameters);
                }
            }
        }
    }

    // The best asymptote for the rate and the inflection tried, and the sum of squares that it leaves.
    private static double Project(GrowthModel model, ReadOnlySpan<double> ages, ReadOnlySpan<double> grams, int every, Span<double> tried)
    {
        tried[0] = 1;
        double cross = 0, square = 0, total = 0;
        for (var i = 0; i < ages.Length; i += every)
        {
            var shape = model.Grams(ages[i], tried);
            cross += shape * grams[i];
            square += shape * shape;
            total += grams[i] * grams[i];
        }

        if (!(square > 0))
            return double.PositiveInfinity;
        tried[0] = cross / square;
        return total - cross * cross / square;
    }
}
