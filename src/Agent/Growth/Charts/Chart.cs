using System.Text;
using CaptureAgent.Agent.Typefaces;
using ScottPlot;
using SkiaSharp;

namespace CaptureAgent.Agent.Growth.Charts;

/// <summary>One or two plots, one below the other, as a picture.</summary>
internal sealed class Chart
{
    private const int LongestLine = 118;

    private readonly Multiplot plots = new();

    public Chart(IReadOnlyList<float> heights)
    {
        PlotFonts.Use();
        plots.Subplots.RemoveAt(0);
        for (var i = 0; i < heights.Count; i++)
            plots.Subplots.Add(NewPlot());
        plots.Layout = new Rows(heights);
    }

    public Plot this[int i] => plots.Subplots.GetPlot(i);

    /// <summary>What is said below the axis, in lines that fit.</summary>
    public static string Wrapped(IEnumerable<string> sentences) => string.Join('\n', sentences.SelectMany(Lines));

    /// <param name="scale">Dots a pixel.</param>
    public byte[] Png(int width, int height, float scale = 1)
    {
        using var surface = SKSurface.Create(new SKImageInfo((int)(width * scale), (int)(height * scale), SKColorType.Rgba8888, SKAlphaType.Opaque));
        surface.Canvas.Clear(SKColors.White);
        surface.Canvas.Scale(scale);
        plots.Render(surface.Canvas, new PixelRect(0, width, height, 0));
        using var image = surface.Snapshot();
        using var data = image.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    /// <summary>Texts stay texts: they are drawn in the reader's <see cref="Typeface.Family"/>, or what it has in its place.</summary>
    public string Svg(int width, int height)
    {
        using var stream = new MemoryStream();
        using (var canvas = SKSvgCanvas.Create(new SKRect(0, 0, width, height), stream))
            plots.Render(canvas, new PixelRect(0, width, height, 0));
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static Plot NewPlot()
    {
        var plot = new Plot();
        plot.FigureBackground.Color = Colors.White;
        plot.Grid.MajorLineColor = ChartColours.Grid;
        plot.Axes.Color(ChartColours.Ink);
        plot.Axes.Left.MinimumSize = 64;
        plot.Axes.Left.MaximumSize = 64;
        plot.Axes.Right.MinimumSize = 24;
        return plot;
    }

    private static IEnumerable<string> Lines(string sentence)
    {
        var line = "";
        foreach (var word in sentence.Split(' '))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > LongestLine)
            {
                yield return line;
                line = "";
            }

            line = line.Length == 0 ? word : $"{line} {word}";
        }

        yield return line;
    }

    private sealed class Rows(IReadOnlyList<float> heights) : IMultiplotLayout
    {
        public PixelRect[] GetSubplotRectangles(SubplotCollection subplots, PixelRect figureRect)
        {
            var rectangles = new PixelRect[heights.Count];
            var top = figureRect.Top;
            for (var i = 0; i < heights.Count; i++)
            {
                var bottom = top + figureRect.Height * heights[i] / heights.Sum();
                rectangles[i] = new PixelRect(figureRect.Left, figureRect.Right, bottom, top);
                top = bottom;
            }

            return rectangles;
        }
    }
}
