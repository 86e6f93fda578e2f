using CaptureAgent.Agent.Typefaces;
using PdfSharp;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace CaptureAgent.Agent.Reports;

/// <summary>A4 pages that are filled from the top: headings, sentences, tables, pictures; a new page where one is full.</summary>
internal sealed class Sheet : IDisposable
{
    // Points; A4 is 595 by 842.
    private const double Margin = 48;
    private const double Foot = 40;
    private const double LineHeight = 1.35;

    private readonly PdfDocument document = new();
    private readonly XFont heading;
    private readonly XFont body;
    private readonly XFont bold;
    private readonly XFont small;
    private readonly string footer;
    private PdfPage page;
    private XGraphics graphics;
    private double y;

    public Sheet(string title, string footer, DateTimeOffset made)
    {
        PdfFonts.Use();
        (heading, body, bold, small) = (Font(13, XFontStyleEx.Bold), Font(9), Font(9, XFontStyleEx.Bold), Font(8));
        this.footer = footer;
        document.Info.Title = title;
        document.Info.CreationDate = made.UtcDateTime;
        (page, graphics) = NewPage();
    }

    private double Width => page.Width.Point - 2 * Margin;

    public void Title(string text)
    {
        var large = Font(18, XFontStyleEx.Bold);
        Room(30);
        graphics.DrawString(text, large, XBrushes.Black, new XPoint(Margin, y + 18));
        y += 30;
    }

    public void Heading(string text)
    {
        // Not alone at the foot of a page.
        Room(60);
        y += 10;
        graphics.DrawString(text, heading, XBrushes.Black, new XPoint(Margin, y + 13));
        y += 22;
    }

    public void Sentence(string text)
    {
        foreach (var line in Lines(text, body, Width))
            Line(line, body, Margin);
        y += 3;
    }

    /// <summary>A PNG, as wide as the page.</summary>
    public void Picture(byte[] png)
    {
        using var stream = new MemoryStream(png);
        using var image = XImage.FromStream(stream);
        var height = Width * image.PixelHeight / image.PixelWidth;
        Room(height + 6);
        graphics.DrawImage(image, Margin, y, Width, height);
        y += height + 6;
    }

    /// <summary>Nothing where there are no rows; the head is said again on each page.</summary>
    /// <param name="columns">Titles, all empty for a table without a head, and parts of the width.</param>
    public void Table(IReadOnlyList<(string Title, double Part)> columns, IReadOnlyList<IReadOnlyList<string?>> rows)
    {
        var whole = columns.Sum(column => column.Part);
        double[] widths = [.. columns.Select(column => Width * column.Part / whole)];
        string?[] head = [.. columns.Select(column => column.Title)];
        var isHeaded = head.Any(title => title!.Length > 0);
        for (var i = 0; i < rows.Count; i++)
        {
            var isFull = y + RowHeight(widths, rows[i], small) + (i == 0 ? 24 : 0) > page.Height.Point - Margin - Foot;
            if (isFull)
                NextPage();
            if (isHeaded && (isFull || i == 0))
                Row(widths, head, bold);
            Row(widths, rows[i], small);
        }

        y += 4;
    }

    public byte[] ToPdf()
    {
        graphics.Dispose();
        for (var i = 0; i < document.PageCount; i++)
        {
            using var end = XGraphics.FromPdfPage(document.Pages[i]);
            end.DrawString($"{footer}   page {i + 1} of {document.PageCount}", small, XBrushes.DimGray, new XPoint(Margin, page.Height.Point - Margin + 8));
        }

        using var stream = new MemoryStream();
        document.Save(stream);
        return stream.ToArray();
    }

    public void Dispose() => document.Dispose();

    private void Row(double[] widths, IReadOnlyList<string?> cells, XFont font)
    {
        var height = RowHeight(widths, cells, font);
        Room(height);
        var left = Margin;
        for (var i = 0; i < widths.Length; i++)
        {
            var top = y;
            foreach (var line in Lines(cells[i] ?? "", font, widths[i] - 6))
            {
                graphics.DrawString(line, font, XBrushes.Black, new XPoint(left, top + font.Size));
                top += font.Size * LineHeight;
            }

            left += widths[i];
        }

        y += height;
        graphics.DrawLine(new XPen(XColors.LightGray, 0.4), Margin, y - 1.5, Margin + Width, y - 1.5);
    }

    private double RowHeight(double[] widths, IReadOnlyList<string?> cells, XFont font) =>
        widths.Select((width, i) => Lines(cells[i] ?? "", font, width - 6).Count).Max() * font.Size * LineHeight + 3;

    private void Line(string text, XFont font, double left)
    {
        Room(font.Size * LineHeight);
        graphics.DrawString(text, font, XBrushes.Black, new XPoint(left, y + font.Size));
        y += font.Size * LineHeight;
    }

    private void Room(double height)
    {
        if (y + height > page.Height.Point - Margin - Foot)
            NextPage();
    }

    private void NextPage()
    {
        graphics.Dispose();
        (page, graphics) = NewPage();
    }

    private (PdfPage Page, XGraphics Graphics) NewPage()
    {
        var added = document.AddPage();
        added.Size = PageSize.A4;
        y = Margin;
        return (added, XGraphics.FromPdfPage(added));
    }

    // Words to lines; one that is longer than a line is cut.
    private List<string> Lines(string text, XFont font, double width)
    {
        List<string> lines = [];
        var line = "";
        foreach (var word in text.Split(' ', '\n', '\r', '\t'))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (graphics.MeasureString(longer, font).Width <= width)
            {
                line = longer;
                continue;
            }

            if (line.Length > 0)
                lines.Add(line);
            line = word;
            while (line.Length > 1 && graphics.MeasureString(line, font).Width > width)
            {
                var fits = line.Length - 1;
                while (fits > 1 && graphics.MeasureString(line[..fits], font).Width > width)
                    fits--;
                lines.Add(line[..fits]);
                line = line[fits..];
            }
        }

        lines.Add(line);
        return lines;
    }

    private static XFont Font(double size, XFontStyleEx style = XFontStyleEx.Regular) => new(Typeface.Family, size, style);
}
