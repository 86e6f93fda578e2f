using CaptureAgent.Agent.Growth.Charts;
using ScottPlot;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth.Charts;

public sealed class LegendPlaceTests
{
    private static readonly CoordinateRect Window = new(0, 60, 0, 900);
    private static readonly Coordinates[] Inside = [new(2, 880), new(58, 20), new(58, 880), new(2, 20)];

    // In the order of Inside: upper left, lower right, upper right, lower left.
    [Theory]
    [InlineData(0, Alignment.UpperLeft)]
    [InlineData(1, Alignment.LowerRight)]
    [InlineData(2, Alignment.UpperRight)]
    [InlineData(3, Alignment.LowerLeft)]
    public void The_first_corner_that_hides_nothing_is_taken(int taken, Alignment expected) =>
        Assert.Equal(expected, LegendPlace.CornerOf(new PixelSize(180, 200), Window, Inside[..taken]));

    [Fact]
    public void Where_every_corner_hides_something_there_is_none() => Assert.Null(LegendPlace.CornerOf(new PixelSize(180, 200), Window, Inside));

    [Fact]
    public void A_small_legend_fits_where_a_large_one_does_not()
    {
        Coordinates[] weights = [new(11, 700)];

        Assert.Equal(Alignment.UpperLeft, LegendPlace.CornerOf(new PixelSize(100, 60), Window, weights));
        Assert.Equal(Alignment.LowerRight, LegendPlace.CornerOf(new PixelSize(180, 200), Window, weights));
    }
}
