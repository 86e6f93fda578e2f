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
        var places = chicks.SelectMany(series => series.AgeDays.Zip(series.Grams, (age, grams) => new Coordinates(age, grams))).ToArray();
        if (places.Length > 0)
        {
            var markers = plot.Add.Markers(places, MarkerShape.FilledCircle, 3, ChartColours.Faint);
            markers.LegendText = $"morning weights, {chicks.Count} {(chicks.Count == 1 ? "chick" : "chicks")}";
        }

        plot.ShowLegend(Alignment.UpperLeft);
        plot.Axes.SetLimits(-0.5, lastAge, 0, 1.08 * Math.Max(ReferenceBand.Highest(reference, 0, lastAge), places.Select(place => place.Y).DefaultIfEmpty(0).Max()));
        plot.Axes.Bottom.TickGenerator = new ScottPlot.TickGenerators.NumericAutomatic { IntegerTicksOnly = true, TickDensity = 0.6 };
        plot.XLabel(Chart.Wrapped(["day of age (the day of hatching is 0)", $"Band: {reference.Source}."]), 11);
        plot.Axes.Bottom.Label.Bold = false;
        return chart;
    }
}
