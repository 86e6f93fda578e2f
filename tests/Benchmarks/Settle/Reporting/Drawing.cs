using System.Globalization;
using System.Security;
using System.Text;

namespace CaptureAgent.Benchmarks.Settle.Reporting;

/// <summary>A drawing in SVG, on white, in pixels from the upper left corner.</summary>
internal sealed class Drawing(int width, int height)
{
    private readonly StringBuilder shapes = new();

    public void Line(double x1, double y1, double x2, double y2, string color, double thickness = 1, string dashes = "") =>
        Shape($"<line x1=\"{x1:0.#}\" y1=\"{y1:0.#}\" x2=\"{x2:0.#}\" y2=\"{y2:0.#}\" stroke=\"{color}\" stroke-width=\"{thickness}\"{(dashes.Length > 0 ? $" stroke-dasharray=\"{dashes}\"" : "")}/>");

    public void Dot(double x, double y, double radius, string color, bool hollow = false) =>
        Shape($"<circle cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"{radius}\" fill=\"{(hollow ? "white" : color)}\" stroke=\"{color}\" stroke-width=\"1.5\"/>");

    /// <param name="anchor">start, middle or end.</param>
    public void Text(double x, double y, string text, string anchor = "start", string color = "#222", int size = 13, bool bold = false) =>
        Shape($"<text x=\"{x:0.#}\" y=\"{y:0.#}\" text-anchor=\"{anchor}\" fill=\"{color}\" font-size=\"{size}\"{(bold ? " font-weight=\"bold\"" : "")}>{SecurityElement.Escape(text)}</text>");

    public void Upwards(double x, double y, string text) =>
        Shape($"<text transform=\"translate({x:0.#} {y:0.#}) rotate(-90)\" text-anchor=\"middle\" fill=\"#222\" font-size=\"13\">{SecurityElement.Escape(text)}</text>");

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"""
        <svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" viewBox="0 0 {width} {height}" font-family="sans-serif">
        <rect width="{width}" height="{height}" fill="white"/>
        {shapes}</svg>

        """);

    private void Shape(FormattableString shape) => shapes.AppendLine(shape.ToString(CultureInfo.InvariantCulture));
}
