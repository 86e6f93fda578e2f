using CaptureAgent.Agent.Growth.References;
using ScottPlot;

namespace CaptureAgent.Agent.Growth.Charts;

/// <summary>A species' reference with every weight of this nursery that it was made from.</summary>
internal static class SpeciesChart
{
    private const int FewestDays = 30;
    private const int MostDays = 150;

    public static Chart Of(ReferenceCurve reference, IReadOnlyList<ChickSeries> chicks)
    {
        var chart = new Chart([1]);
        var plot = chart[0];
        var lastAge = chicks.Count == 0 ? reference.LastAge : Math.Clamp(chicks.Max(series => series.AgeDays[^1]) + 7, FewestDays, MostDays);
        plot.Title(reference.Species, 16);
        plot.YLabel("grams", 12);
        ReferenceBand.Add(plot, reference, 0, lastAge);
        var places = Apart([.. chicks.SelectMany(series => series.AgeDays.Zip(series.Grams, (age, grams) => new Coordinates(age, grams)))]);
        if (places.Length > 0)
        {
            var markers = plot.Add.Markers(places, MarkerShape.FilledCircle, 3, ChartColours.Faint);
            markers.LegendText = $"morning weights, {chicks.Count} {(chicks.Count == 1 ? "chick" : "chicks")}";
        }

        // A dash that is drawn before them is tried on each mark, and for SVG the drawing library complains of every one on standard error.
        foreach (var dashed in plot.GetPlottables<ScottPlot.Plottables.Scatter>().Where(line => !line.LinePattern.Equals(LinePattern.Solid)).ToList())
            plot.MoveToTop(dashed);
        plot.ShowLegend(Alignment.UpperLeft);
        plot.Axes.SetLimits(-0.5, lastAge, 0, 1.08 * Math.Max(ReferenceBand.Highest(reference, 0, lastAge), places.Select(place => place.Y).DefaultIfEmpty(0).Max()));
        plot.Axes.Bottom.TickGenerator = new ScottPlot.TickGenerators.NumericAutomatic { IntegerTicksOnly = true, TickDensity = 0.6 };
        plot.XLabel(Chart.Wrapped(["day of age (the day of hatching is 0)", $"Band: {reference.Source}."]), 11);
        plot.Axes.Bottom.Label.Bold = false;
        return chart;
    }

    /// <summary>One of those marks that would lie upon one another: a nursery's tens of thousands make a picture of megabytes and show no more.</summary>
    /// <returns>No two of one day of age that are nearer than about a pixel; the heaviest is among them.</returns>
    public static Coordinates[] Apart(IReadOnlyCollection<Coordinates> places)
    {
        const double Steps = 500;
        if (places.Count == 0)
            return [];
        var step = places.Max(place => place.Y) / Steps;
        return [.. places.OrderByDescending(place => place.Y).DistinctBy(place => (place.X, Math.Round(place.Y / step)))];
    }
}
