using CaptureAgent.Agent.Thriving;
using ScottPlot;

namespace CaptureAgent.Agent.Growth.Charts;

/// <summary>How things look on a chart. What matters is told by shape as well as by colour, for eyes and printers that do not tell colours apart.</summary>
internal static class ChartColours
{
    public static Color Ink { get; } = new(28, 36, 48);

    public static Color Faint { get; } = new(120, 128, 140);

    public static Color Grid { get; } = new(226, 228, 232);

    public static Color OuterBand { get; } = new(222, 232, 226);

    public static Color InnerBand { get; } = new(196, 216, 204);

    public static Color Median { get; } = new(92, 132, 108);

    public static Color Fit { get; } = new(70, 88, 160);

    public static Color Loss { get; } = new(170, 84, 40);

    public static (MarkerShape Shape, Color Colour, float Size) Finding(string severity) => severity switch
    {
        Severities.Red => (MarkerShape.FilledTriangleDown, new Color(190, 30, 45), 15),
        Severities.Look => (MarkerShape.FilledDiamond, new Color(214, 132, 0), 13),
        _ => (MarkerShape.OpenSquare, Faint, 11),
    };
}
