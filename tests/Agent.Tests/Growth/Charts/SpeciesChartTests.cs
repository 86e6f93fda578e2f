using CaptureAgent.Agent.Growth.Charts;
using CaptureAgent.Agent.Growth.References;
using ScottPlot;
using ScottPlot.Plottables;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth.Charts;

public sealed class SpeciesChartTests
{
    private const string Species = "Ara macao";

    private static readonly double[] Sizes = [0.95, 1.0, 1.05];

    [Fact]
    public void The_band_ends_with_the_own_weights_and_the_published_median_goes_on_as_such()
    {
        ChickSeries[] chicks = [.. Sizes.Select((size, i) => new ChickSeries(
            $"C-{i}", Species, [.. Enumerable.Range(5, 16)], [.. Enumerable.Range(5, 16).Select(age => size * 15 * Math.Exp(0.1 * age))]))];
        var plot = SpeciesChart.Of(new ReferenceLibrary(chicks).Of(Species)!, chicks)[0];

        foreach (var band in plot.GetPlottables<FillY>())
            Assert.Equal((5.0, 20.0), (band.GetAxisLimits().Left, band.GetAxisLimits().Right));
        var published = plot.GetPlottables<Scatter>().Where(line => line.LinePattern.Equals(ScottPlot.LinePattern.DenselyDashed)).ToList();
        Assert.Equal([(0.0, 5.0), (20.0, 30.0)], published.Select(line => (line.GetAxisLimits().Left, line.GetAxisLimits().Right)));
        Assert.Equal(["published median", ""], published.Select(line => line.LegendText));
        Assert.Equal(30, plot.Axes.GetLimits().Right);

        // No mark is drawn after a dash.
        var drawn = plot.GetPlottables().ToList();
        Assert.All(published, dashed => Assert.True(drawn.IndexOf(dashed) > drawn.FindIndex(each => each is Markers)));
    }

    [Fact]
    public void Without_own_weights_the_published_curve_is_drawn_to_its_end()
    {
        var plot = SpeciesChart.Of(new ReferenceLibrary([]).Of(Species)!, [])[0];

        Assert.All(plot.GetPlottables<FillY>(), band => Assert.Equal((0.0, 150.0), (band.GetAxisLimits().Left, band.GetAxisLimits().Right)));
        Assert.DoesNotContain(plot.GetPlottables<Scatter>(), line => line.LegendText == "published median");
    }

    /// <summary>40,000 weights of 40 days: as many marks as there are pixels for them, none of them further from a weight than a pixel.</summary>
    [Fact]
    public void Marks_that_would_lie_upon_one_another_are_drawn_once()
    {
        Coordinates[] places = [.. Enumerable.Range(0, 40_000).Select(i => new Coordinates(i % 40, 100 + (i * 7919L % 40_000) / 40.0))];
        var apart = SpeciesChart.Apart(places);

        Assert.InRange(apart.Length, 40 * 300, 40 * 501);
        Assert.Equal(places.Max(place => place.Y), apart.Max(place => place.Y));
        var drawn = apart.GroupBy(place => place.X).ToDictionary(day => day.Key, day => day.Select(place => place.Y).Order().ToArray());
        Assert.All(places.Take(2000), place => Assert.Contains(drawn[place.X], y => Math.Abs(y - place.Y) <= 1100.0 / 500));
    }
}
