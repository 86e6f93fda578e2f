using ScottPlot;

namespace CaptureAgent.Agent.Growth.Charts;

/// <summary>Puts a legend into a corner in which nothing lies that a keeper looks for, and beside the plot where every corner has something.</summary>
internal static class LegendPlace
{
    // Pixels of the smallest area that weights are drawn in: a chick's, in its report.
    private const double AreaWidth = 880;
    private const double AreaHeight = 380;

    /// <summary>Pixels about a legend that are to stay free: half a mark, and the legend's own distance from the corner.</summary>
    private const double Margin = 16;

    // By how often they are free on a curve of growth.
    private static readonly Alignment[] Corners = [Alignment.UpperLeft, Alignment.LowerRight, Alignment.UpperRight, Alignment.LowerLeft];

    /// <summary>After all that has an entry was added.</summary>
    /// <param name="window">What the axes show.</param>
    /// <param name="marks">What must not be hidden.</param>
    public static void Show(Plot plot, CoordinateRect window, IEnumerable<Coordinates> marks)
    {
        if (CornerOf(Size(plot), window, marks) is { } corner)
            plot.ShowLegend(corner);
        else
            plot.ShowLegend(Edge.Right);
    }

    /// <summary>Null where every corner hides a mark.</summary>
    /// <param name="size">Of the legend, pixels.</param>
    public static Alignment? CornerOf(PixelSize size, CoordinateRect window, IEnumerable<Coordinates> marks)
    {
        var (across, up) = ((size.Width + Margin) / AreaWidth, (size.Height + Margin) / AreaHeight);
        (double X, double Y)[] places =
        [
            .. marks.Select(mark => ((mark.X - window.Left) / window.Width, (mark.Y - window.Bottom) / window.Height)),
        ];
        foreach (var corner in Corners)
        {
            if (!places.Any(place => Hides(corner, place.X, place.Y)))
                return corner;
        }

        return null;

        bool Hides(Alignment corner, double x, double y) =>
            (corner is Alignment.UpperLeft or Alignment.LowerLeft ? x < across : x > 1 - across)
            && (corner is Alignment.UpperLeft or Alignment.UpperRight ? y > 1 - up : y < up);
    }

    private static PixelSize Size(Plot plot)
    {
        using var picture = plot.Legend.GetImage();
        return new(picture.Width, picture.Height);
    }
}
