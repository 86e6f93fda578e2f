using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Growth.Charts;
using ScottPlot;
using ScottPlot.Plottables;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth.Charts;

public sealed class ChickChartTests
{
    // A chick that came late and loses weight has its weights where those of a young one leave room.
    [Theory]
    [InlineData(0, 3, 0.95)]
    [InlineData(0, 3, 3.0)]
    [InlineData(0, 8, 0.95)]
    [InlineData(0, 8, 2.0)]
    [InlineData(0, 20, 0.95)]
    [InlineData(0, 60, 0.95)]
    [InlineData(0, 60, 1.3)]
    [InlineData(56, 60, 0.95)]
    [InlineData(60, 90, 1.2)]
    public void The_legend_hides_no_weight_no_forecast_no_finding_and_no_word(int firstAge, int lastAge, double factor)
    {
        foreach (var seen in new[] { firstAge, lastAge })
        {
            var view = DrawnChick.Of(firstAge, lastAge, factor, finding: 20 * factor, seen: seen);
            var plot = Drawn(view);
            var legend = Legend(plot);
            foreach (var mark in Marks(plot, view))
                Assert.False(legend.Contains(plot.GetPixel(mark)), $"{mark} lies behind the legend, seen on day {seen}");
            foreach (var words in plot.GetPlottables<Text>())
                Assert.False(Overlap(legend, words, plot), $"'{words.LabelText}' of day {seen} lies behind the legend");
        }
    }

    [Theory]
    [InlineData(0, 3)]
    [InlineData(0, 20)]
    [InlineData(56, 60)]
    public void What_a_keeper_saw_stands_clear_of_the_weights(int firstAge, int lastAge)
    {
        foreach (var seen in new[] { firstAge, lastAge })
        {
            var view = DrawnChick.Of(firstAge, lastAge, seen: seen);
            var plot = Drawn(view);
            var words = Assert.Single(plot.GetPlottables<Text>());
            foreach (var mark in Marks(plot, view))
                Assert.False(Rectangle(words, plot).Contains(plot.GetPixel(mark)), $"{mark} lies behind '{words.LabelText}' of day {seen}");
        }
    }

    [Theory]
    [InlineData(3)]
    [InlineData(8)]
    public void The_weights_of_the_first_days_are_spread_over_the_chart(int age)
    {
        var view = DrawnChick.Of(0, age);
        var plot = Drawn(view);
        var (first, last) = (plot.GetPixel(Place(view, 0)), plot.GetPixel(Place(view, ^1)));

        Assert.InRange((last.X - first.X) / plot.LastRender.DataRect.Width, 0.35, 0.9);
        Assert.InRange((first.Y - last.Y) / plot.LastRender.DataRect.Height, 0.15, 0.9);
    }

    [Fact]
    public void A_chick_without_weights_and_one_without_a_hatch_date_are_drawn()
    {
        Assert.NotEmpty(ChickChart.Of(DrawnChick.Of(0, -1)).Png(1000, 760));
        Assert.NotEmpty(ChickChart.Of(DrawnChick.Of(0, 5, hasHatched: false)).Png(1000, 760));
    }

    private static Plot Drawn(GrowthView view)
    {
        var chart = ChickChart.Of(view);
        chart.Png(1000, 700);
        return chart[0];
    }

    private static Coordinates Place(GrowthView view, Index i) => new(view.Weights[i].AgeDays, view.Weights[i].Grams);

    private static IEnumerable<Coordinates> Marks(Plot plot, GrowthView view) =>
    [
        .. view.Weights.Select(weight => new Coordinates(weight.AgeDays, weight.Grams)),
        new(view.Next!.AgeDays!.Value, view.Next.LowGrams!.Value),
        new(view.Next.AgeDays!.Value, view.Next.HighGrams!.Value),
        .. view.Findings.Select(finding => new Coordinates(view.AgeOn(finding.Day)!.Value, finding.Grams!.Value)),
    ];

    // Where the legend was drawn; nowhere over the weights if it stands beside the plot.
    private static PixelRect Legend(Plot plot)
    {
        if (!plot.Legend.IsVisible)
            return new PixelRect(-2, -1, -1, -2);
        using var picture = plot.Legend.GetImage();
        var (area, margin) = (plot.LastRender.DataRect, plot.Legend.Margin.Left);
        var left = plot.Legend.Alignment is Alignment.UpperLeft or Alignment.LowerLeft ? area.Left + margin : area.Right - margin - picture.Width;
        var top = plot.Legend.Alignment is Alignment.UpperLeft or Alignment.UpperRight ? area.Top + margin : area.Bottom - margin - picture.Height;
        return new PixelRect(left, left + picture.Width, top + picture.Height, top);
    }

    private static bool Overlap(PixelRect legend, Text words, Plot plot)
    {
        var about = Rectangle(words, plot);
        return about.Left < legend.Right && legend.Left < about.Right && about.Top < legend.Bottom && legend.Top < about.Bottom;
    }

    // Ten pixels of letters, upright, from their anchor up or down.
    private static PixelRect Rectangle(Text words, Plot plot)
    {
        var anchor = plot.GetPixel(words.Location);
        var length = 5.5f * words.LabelText.Length * (words.LabelAlignment == Alignment.LowerLeft ? -1 : 1);
        return new PixelRect(anchor.X - 11, anchor.X, Math.Max(anchor.Y, anchor.Y + length), Math.Min(anchor.Y, anchor.Y + length));
    }
}
