using CaptureAgent.Agent.Growth.References;
using ScottPlot;

namespace CaptureAgent.Agent.Growth.Charts;

/// <summary>The reference behind the weights: the middle half, the range from the 3rd to the 97th centile, and the median.</summary>
internal static class ReferenceBand
{
    /// <summary>Standard deviations of the 97th and of the 75th centile.</summary>
    private const double Outer = 1.880794;
    private const double Inner = 0.674490;

    /// <summary>Draws what of the reference lies between two ages.</summary>
    public static void Add(Plot plot, ReferenceCurve reference, double firstAge, double lastAge)
    {
        if (Days(reference, firstAge, lastAge) is { Length: > 0 } own)
        {
            Band(plot, reference, own, Outer, ChartColours.OuterBand, "3rd to 97th centile");
            Band(plot, reference, own, Inner, ChartColours.InnerBand, "25th to 75th");
            Median(plot, reference, own, ChartColours.Median).LegendText = "median";
        }

        var legend = "published median";
        foreach (var ages in Elsewhere(reference, firstAge, lastAge))
        {
            var line = Median(plot, reference.Elsewhere!, ages, ChartColours.Faint);
            (line.LinePattern, line.LegendText, legend) = (LinePattern.DenselyDashed, legend, "");
        }
    }

    /// <summary>The whole days of age between two that a reference tells of.</summary>
    public static double[] Days(ReferenceCurve reference, double firstAge, double lastAge)
    {
        var (first, last) = (Math.Max(reference.FirstAge, (int)Math.Floor(firstAge)), Math.Min(reference.LastAge, (int)Math.Ceiling(lastAge)));
        return [.. Enumerable.Range(first, Math.Max(0, last - first + 1)).Select(day => (double)day)];
    }

    /// <summary>Grams of the highest that is drawn between two ages; 0 where nothing is.</summary>
    public static double Highest(ReferenceCurve reference, double firstAge, double lastAge) =>
        Days(reference, firstAge, lastAge).Select(age => Grams(reference.At(age)!.Value, Outer))
            .Concat(Elsewhere(reference, firstAge, lastAge).SelectMany(ages => ages).Select(age => reference.Elsewhere!.At(age)!.Value.M))
            .DefaultIfEmpty(0).Max();

    // The days before and after, in which there is the published curve only.
    private static IEnumerable<double[]> Elsewhere(ReferenceCurve reference, double firstAge, double lastAge) => reference.Elsewhere is not { } elsewhere
        ? []
        : new[] { Days(elsewhere, firstAge, Math.Min(lastAge, reference.FirstAge)), Days(elsewhere, Math.Max(firstAge, reference.LastAge), lastAge) }
            .Where(ages => ages.Length > 1);

    private static ScottPlot.Plottables.Scatter Median(Plot plot, ReferenceCurve reference, double[] ages, Color colour)
    {
        var line = plot.Add.ScatterLine(ages, [.. ages.Select(age => reference.At(age)!.Value.M)], colour);
        line.LineWidth = 1.5f;
        return line;
    }

    private static void Band(Plot plot, ReferenceCurve reference, double[] ages, double z, Color colour, string legend)
    {
        var fill = plot.Add.FillY(
            ages, [.. ages.Select(age => Grams(reference.At(age)!.Value, -z))], [.. ages.Select(age => Grams(reference.At(age)!.Value, z))]);
        fill.FillColor = colour;
        fill.LineWidth = 0;
        fill.LegendText = legend;
    }

    // A distribution with a power may end before: then its end.
    private static double Grams(Lms at, double z) => double.IsNaN(at.Value(z)) ? 0 : at.Value(z);
}
