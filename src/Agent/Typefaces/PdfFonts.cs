using PdfSharp.Fonts;

namespace CaptureAgent.Agent.Typefaces;

/// <summary>Gives PDFsharp the program's own typeface, whatever family is asked for.</summary>
internal sealed class PdfFonts : IFontResolver
{
    private const string BoldFace = "bold";
    private const string RegularFace = "regular";

    private PdfFonts()
    {
    }

    /// <summary>May be called any number of times; needed before the first font is made.</summary>
    public static void Use() => GlobalFontSettings.FontResolver ??= new PdfFonts();

    public FontResolverInfo ResolveTypeface(string familyName, bool isBold, bool isItalic) => new(isBold ? BoldFace : RegularFace);

    public byte[] GetFont(string faceName) => faceName == BoldFace ? Typeface.Bold() : Typeface.Regular();
}
