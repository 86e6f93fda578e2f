using ScottPlot;

namespace CaptureAgent.Agent.Growth.Charts;

/// <summary>What a chick's chart shows: no more than its own life so far and the next days, so that a week of weights fills it as sixty days do.</summary>
/// <param name="FirstAge">Day of age at the left end.</param>
/// <param name="LastAge">Day of age at the right end.</param>
/// <param name="Grams">At the upper end; the lower one is 0.</param>
internal readonly record struct ChickWindow(double FirstAge, double LastAge, double Grams)
{
    private const int DaysAhead = 3;
    private const int FewestDays = 7;

    /// <summary>Room above what is highest.</summary>
    private const double Headroom = 1.08;

    public static ChickWindow Of(GrowthView view)
    {
        int[] ages =
        [
            .. view.Weights.Select(weight => weight.AgeDays),
            .. view.Observations.Select(seen => view.AgeOn(seen.Day)).OfType<int>(),
            .. view.Findings.Select(finding => view.AgeOn(finding.Day)).OfType<int>(),
        ];
        var (first, last) = (ages.DefaultIfEmpty(0).Min(), ages.DefaultIfEmpty(0).Max());
        // Of a chick that came late the empty days before would take most of the width.
        var from = first > last / 2 ? first : Math.Min(0, first);
        var to = Math.Max(from + FewestDays, last + DaysAhead);
        return new(from, to, Headroom * Highest(view, from, to));
    }

    public CoordinateRect Rectangle => new(FirstAge - 0.5, LastAge, 0, Grams);

    private static double Highest(GrowthView view, int from, int to)
    {
        List<double> grams = [1, .. view.Weights.Select(weight => weight.Grams), .. view.Findings.Select(finding => finding.Grams).OfType<double>()];
        if (view.Next is { HighGrams: { } high })
            grams.Add(high);
        if (view.Reference is { } reference)
            grams.Add(ReferenceBand.Highest(reference, from, to));
        return grams.Max();
    }
}
