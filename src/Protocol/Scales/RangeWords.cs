using CaptureAgent.Protocol.Encoding;

namespace CaptureAgent.Protocol.Scales;

/// <summary>What stands in the place of the digits when the scale cannot show the load.</summary>
/// <remarks>
/// <list type="bullet">
/// <item>H, High, OL, O-LOAD, Over: overload. L, Low, UL, U-LOAD, Under: underload. E, Err, Error, with a number or not: no value.</item>
/// <item>Two or more dashes in one run, alone or behind a plus: overload. A minus that stands apart from the run by at least one
/// blank is the sign: underload. A run that begins in the sign's column cannot be told from a longer run and counts as overload.</item>
/// <item>Two or more low lines (<c>____</c>): underload, as on the display.</item>
/// <item>A minus before a word of overload makes it underload.</item>
/// </list>
/// A unit may follow. Common practice, no source.
/// </remarks>
internal static class RangeWords
{
    /// <summary>Reads the value field; false if what stands there is none of these.</summary>
    public static bool TryRead(ReadOnlySpan<byte> text, out LoadRange range, out LineFault fault)
    {
        range = LoadRange.Within;
        fault = LineFault.None;
        text = text.Trim((byte)' ');
        if (IsRun(FirstWord(text), (byte)'-'))
        {
            range = LoadRange.Overload;
            return IsUnitOrBlank(text[FirstWord(text).Length..]);
        }

        var minus = ShownNumber.TakeSign(ref text);
        var word = FirstWord(text);
        if (IsAny(word, "E"u8, "ERR"u8, "ERROR"u8))
        {
            fault = LineFault.NoValue;
            return true;
        }

        if (IsRun(word, (byte)'-') || IsAny(word, "H"u8, "HIGH"u8, "OL"u8, "OVER"u8) || IsAny(word, "O-LOAD"u8))
            range = minus ? LoadRange.Underload : LoadRange.Overload;
        else if (IsRun(word, (byte)'_') || IsAny(word, "L"u8, "LOW"u8, "UL"u8, "UNDER"u8) || IsAny(word, "U-LOAD"u8))
            range = LoadRange.Underload;
        return range != LoadRange.Within && IsUnitOrBlank(text[word.Length..]);
    }

    private static ReadOnlySpan<byte> FirstWord(ReadOnlySpan<byte> text)
    {
        var end = text.IndexOf((byte)' ');
        return end < 0 ? text : text[..end];
    }

    private static bool IsRun(ReadOnlySpan<byte> word, byte of) => word.Length >= 2 && !word.ContainsAnyExcept(of);

    private static bool IsUnitOrBlank(ReadOnlySpan<byte> rest) => rest.Trim((byte)' ').IsEmpty || MassUnits.TryParse(rest, out _);

    private static bool IsAny(
        ReadOnlySpan<byte> word, ReadOnlySpan<byte> a, ReadOnlySpan<byte> b = default, ReadOnlySpan<byte> c = default, ReadOnlySpan<byte> d = default) =>
        !word.IsEmpty && (Is(word, a) || Is(word, b) || Is(word, c) || Is(word, d));

    private static bool Is(ReadOnlySpan<byte> word, ReadOnlySpan<byte> name) => System.Text.Ascii.EqualsIgnoreCase(word, name);
}
