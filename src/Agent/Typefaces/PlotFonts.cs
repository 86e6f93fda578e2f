using ScottPlot;
using SkiaSharp;

namespace CaptureAgent.Agent.Typefaces;

/// <summary>Gives the plotting library the program's own typeface.</summary>
internal sealed class PlotFonts : IFontResolver
{
    private static readonly Lock Gate = new();
    private static PlotFonts? used;

    private readonly SKTypeface regular = Load(Typeface.Regular());
    private readonly SKTypeface bold = Load(Typeface.Bold());

    private PlotFonts()
    {
    }

    /// <summary>May be called any number of times; needed before the first plot is made.</summary>
    public static void Use()
    {
        lock (Gate)
        {
            if (used is not null)
                return;
            used = new PlotFonts();
            Fonts.FontResolvers.Insert(0, used);
            Fonts.Default = Typeface.Family;
            Fonts.Sans = Typeface.Family;
        }
    }

    public SKTypeface? CreateTypeface(string fontName, FontWeight weight, FontSlant slant, FontSpacing spacing) =>
        CreateTypeface(fontName, weight >= FontWeight.SemiBold, slant is not FontSlant.Upright);

    public SKTypeface? CreateTypeface(string fontName, bool bold, bool italic) => fontName == Typeface.Family ? (bold ? this.bold : regular) : null;

    private static SKTypeface Load(byte[] font)
    {
        using var data = SKData.CreateCopy(font);
        return SKTypeface.FromData(data);
    }
}
