using CaptureAgent.Agent.Typefaces;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace CaptureAgent.Agent.Labels;

/// <summary>Draws labels: the square code on the left, what it is beside it, the bars below with the code in letters. Modules are rectangles: they stay sharp on any printer.</summary>
internal sealed class LabelPdf
{
    /// <summary>Millimetres. A hand-held scanner reads modules from 0.33 mm and bars from 0.25 mm surely (common practice, no source).</summary>
    public const double SmallestModule = 0.33, SmallestBar = 0.25;

    private const double Point = 72 / 25.4, Padding = 2.5, LargestModule = 0.8, LargestBar = 0.5, MostBarHeight = 10;

    private readonly LabelSheet sheet;
    private readonly string symbol;
    private readonly XFont heading, detail, letters;

    /// <param name="symbol">One of <see cref="Symbols.Names"/>.</param>
    public LabelPdf(LabelSheet sheet, string symbol)
    {
        PdfFonts.Use();
        (this.sheet, this.symbol) = (sheet, symbol);
        heading = new XFont(Typeface.Family, 12, XFontStyleEx.Bold);
        detail = new XFont(Typeface.Family, 7);
        letters = new XFont(Typeface.Family, 8, XFontStyleEx.Bold);
    }

    /// <summary>Codes that are too long for bars on this sheet: their labels have the square code alone.</summary>
    public List<string> WithoutBars { get; } = [];

    /// <param name="skip">Labels that are gone from the first sheet.</param>
    /// <exception cref="LabelException">A code does not fit on these labels.</exception>
    public byte[] Draw(IReadOnlyList<Label> labels, int skip, DateTimeOffset made)
    {
        using var document = new PdfDocument();
        document.Info.Title = "Labels";
        document.Info.CreationDate = made.UtcDateTime;
        XGraphics? page = null;
        for (var i = 0; i < labels.Count; i++)
        {
            var place = (i + skip) % sheet.LabelsAPage;
            if (page is null || place == 0)
            {
                page?.Dispose();
                page = NewPage(document);
            }

            var (x, y) = sheet.Corner(place);
            Draw(page, labels[i], x, y);
        }

        page?.Dispose();
        using var stream = new MemoryStream();
        document.Save(stream);
        return stream.ToArray();
    }

    private XGraphics NewPage(PdfDocument document)
    {
        var page = document.AddPage();
        (page.Width, page.Height) = (XUnit.FromMillimeter(sheet.PageWidth), XUnit.FromMillimeter(sheet.PageHeight));
        return XGraphics.FromPdfPage(page);
    }

    private void Draw(XGraphics page, Label label, double x, double y)
    {
        var (width, height) = (sheet.LabelWidth - 2 * Padding, sheet.LabelHeight - 2 * Padding);
        var lettersHeight = letters.Size * 1.2 / Point;
        var barHeight = Math.Min(MostBarHeight, height * 0.28);
        var bars = Symbols.Bars(label.Code);
        var bar = Math.Min(LargestBar, width / (bars.Length + 2 * Symbols.BarsQuiet));
        var hasBars = bar >= SmallestBar;
        if (!hasBars)
            WithoutBars.Add(label.Code);
        var above = height - lettersHeight - (hasBars ? barHeight : 0);
        var side = DrawSquare(page, label.Code, x + Padding, y + Padding, Math.Min(above, width / 2));

        var saved = page.Save();
        page.IntersectClip(Area(x + Padding, y + Padding, width, height));
        var top = y + Padding + 5;
        page.DrawString(label.Heading, Fitting(page, label.Heading, (width - side - 1) * Point), XBrushes.Black, new XPoint((x + Padding + side + 1) * Point, top * Point));
        foreach (var line in label.Details)
            page.DrawString(line, detail, XBrushes.Black, new XPoint((x + Padding + side + 1) * Point, (top += 3.2) * Point));
        page.Restore(saved);

        if (hasBars)
        {
            var left = x + Padding + (width - bars.Length * bar) / 2;
            for (var i = 0; i < bars.Length;)
                i += Run(page, bars, i, bar, left, y + Padding + above, barHeight);
        }

        page.DrawString(label.Code, letters, XBrushes.Black, Area(x + Padding, y + Padding + height - lettersHeight, width, lettersHeight), XStringFormats.Center);
    }

    // With its quiet zone, in the upper left corner; returns the side in millimetres.
    private double DrawSquare(XGraphics page, string code, double x, double y, double side)
    {
        var modules = Symbols.Square(symbol, code);
        var (size, quiet) = (modules.GetLength(0), Symbols.QuietOf(symbol));
        var module = Math.Min(LargestModule, side / (size + 2 * quiet));
        if (module < SmallestModule)
            throw new LabelException($"'{code}' does not fit on the labels of sheet {sheet.Name}: a module would be {module:0.00} mm, and scanners want {SmallestModule:0.00} mm. Take larger labels, or shorter codes.");
        var line = new bool[size];
        for (var row = 0; row < size; row++)
        {
            for (var column = 0; column < size; column++)
                line[column] = modules[row, column];
            for (var column = 0; column < size;)
                column += Run(page, line, column, module, x + quiet * module, y + (quiet + row) * module, module);
        }

        return (size + 2 * quiet) * module;
    }

    // Neighbours are one rectangle: no printer leaves a hair between them.
    private static int Run(XGraphics page, bool[] dark, int from, double module, double left, double top, double height)
    {
        var length = 1;
        while (from + length < dark.Length && dark[from + length] == dark[from])
            length++;
        if (dark[from])
            page.DrawRectangle(XBrushes.Black, Area(left + from * module, top, length * module, height));
        return length;
    }

    private XFont Fitting(XGraphics page, string text, double points)
    {
        var wide = page.MeasureString(text, heading).Width;
        return wide <= points ? heading : new XFont(Typeface.Family, Math.Max(6, heading.Size * points / wide), XFontStyleEx.Bold);
    }

    private static XRect Area(double x, double y, double width, double height) => new(x * Point, y * Point, width * Point, height * Point);
}

/// <summary>A label cannot be made; the message says why and what to do.</summary>
internal sealed class LabelException(string message) : Exception(message);
