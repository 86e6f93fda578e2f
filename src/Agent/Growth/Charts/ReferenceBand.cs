using CaptureAgent.Agent.Growth.References;
using ScottPlot;

namespace CaptureAgent.Agent.Growth.Charts;

/// <summary>The reference behind the weights: the middle half, the range from the 3rd to the 97th centile, and the median.</summary>
internal static class ReferenceBand
{
    /// <summary>Standard deviations of the 97th and of the 75th centile.</summary>
    private const double Outer = 1.880794;
    private const double Inner = 0.674490;

    public static void Add(Plot plot, ReferenceCurve reference, double lastAge)
    {
        double[] ages = [.. Enumerable.Range(0, (int)Math.Min(reference.LastAge, Math.Ceiling(lastAge)) + 1).Select(day => (double)day)];
        Band(plot, reference, ages, Outer, ChartColours.OuterBand, "3rd to 97th centile");
        Band(plot, reference, ages, Inner, ChartColours.InnerBand, "25th to 75th");
        var median = plot.Add.ScatterLine(ages, [.. ages.Select(age => reference.At(age)!.Value.M)], ChartColours.Median);
        median.LineWidth = 1.5f;
        median.LegendText = "median";
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
