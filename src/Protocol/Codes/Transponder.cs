namespace CaptureAgent.Protocol.Codes;

/// <summary>The number of an animal's transponder as readers print it: <c>999 123456789012</c>.</summary>
/// <remarks>
/// <code>line = 3DIGIT [ SP / "." / "-" ] 12DIGIT     country or manufacturer, then the national code</code>
/// ISO 11784: country 1 to 999 (ISO 3166-1 numeric, or 900 to 998 for a manufacturer, 999 for tests), a national code of 38 bits. Country 000 is no code. Always
/// text of 15 digits, never a number: zeros in front count.
/// </remarks>
public static class Transponder
{
    private const int CountryDigits = 3;
    private const int Digits = 15;

    /// <summary>The largest national code: 38 bits.</summary>
    private const long LargestCode = (1L << 38) - 1;

    /// <summary>Reads a line, blanks around it ignored; false for anything that is no transponder's number.</summary>
    /// <param name="code">15 digits.</param>
    public static bool TryRead(string line, out string code)
    {
        code = "";
        var text = line.Trim();
        if (text.Length == Digits + 1 && text[CountryDigits] is ' ' or '.' or '-')
            text = text.Remove(CountryDigits, 1);
        if (text.Length != Digits || !text.All(char.IsAsciiDigit) || text.StartsWith("000", StringComparison.Ordinal))
            return false;
        if (long.Parse(text[CountryDigits..], System.Globalization.CultureInfo.InvariantCulture) > LargestCode)
            return false;
        code = text;
        return true;
    }
}
