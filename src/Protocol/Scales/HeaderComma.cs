using System.Text;

namespace CaptureAgent.Protocol.Scales;

/// <summary>The <c>header-comma</c> dialect: <c>ST,GS,+  186.4  g</c>.</summary>
/// <remarks>
/// <code>line = header "," [ mark "," ] number *SP unit</code>
/// Headers: ST stable, US unstable, WT weight (says nothing of motion), OL overload, UL underload; what stands behind OL and
/// UL (nines, blanks, dashes, <c>9999999E+19</c>) is not looked at. QT is a count of pieces, so its unit is no mass. TL (total)
/// and HD (held) are no reading of what lies on the pan now: no value. Marks: GS and G gross, NT and N net; TR is the
/// tare itself, not a load: no value. <c>G</c> in the place of the unit means gram. Common practice, no source.
/// </remarks>
public sealed class HeaderComma : IScaleDecoder
{
    public LineFault Decode(ReadOnlySpan<byte> line, out ScaleReading reading)
    {
        reading = default;
        line = line.Trim((byte)' ');
        if (!Ascii.IsValid(line) || !StartsWithHeader(line))
            return LineFault.BadShape;

        var fault = ReadHeader(line[0], line[1], out var range, out var stability);
        if (fault != LineFault.None)
            return fault;

        var rest = line.Length > 3 ? line[3..] : default;
        fault = TakeMark(ref rest, out var mark);
        if (range != LoadRange.Within)
        {
            reading = new(range, 0, MassUnit.None, Stability.Unknown, mark);
            return LineFault.None;
        }

        if (fault != LineFault.None)
            return fault;
        fault = ValueAndUnit.Read(rest, out var value, out var unit);
        if (fault == LineFault.None)
            reading = new(LoadRange.Within, value, unit, stability, mark);
        return fault;
    }

    private static bool StartsWithHeader(ReadOnlySpan<byte> line) =>
        line.Length >= 2 && char.IsAsciiLetterUpper((char)line[0]) && char.IsAsciiLetterUpper((char)line[1])
        && (line.Length == 2 || line[2] == (byte)',');

    private static LineFault ReadHeader(byte first, byte second, out LoadRange range, out Stability stability)
    {
        (range, stability, var fault) = ((char)first, (char)second) switch
        {
            ('S', 'T') => (LoadRange.Within, Stability.Stable, LineFault.None),
            ('U', 'S') => (LoadRange.Within, Stability.Unstable, LineFault.None),
            ('W', 'T') => (LoadRange.Within, Stability.Unknown, LineFault.None),
            ('O', 'L') => (LoadRange.Overload, Stability.Unknown, LineFault.None),
            ('U', 'L') => (LoadRange.Underload, Stability.Unknown, LineFault.None),
            ('Q', 'T') => (LoadRange.Within, Stability.Unknown, LineFault.UnknownUnit),
            ('T', 'L') or ('H', 'D') => (LoadRange.Within, Stability.Unknown, LineFault.NoValue),
            _ => (LoadRange.Within, Stability.Unknown, LineFault.UnknownStatus),
        };
        return fault;
    }

    /// <summary>Takes the mark and its comma off the front, if there is one; a comma behind digits is the number's own.</summary>
    private static LineFault TakeMark(ref ReadOnlySpan<byte> rest, out WeightMark mark)
    {
        mark = WeightMark.Unknown;
        var comma = rest.IndexOf((byte)',');
        if (comma <= 0)
            return LineFault.None;

        var word = rest[..comma].Trim((byte)' ');
        if (word.IsEmpty || !char.IsAsciiLetter((char)word[0]))
            return LineFault.None;

        rest = rest[(comma + 1)..];
        switch (word)
        {
            case [(byte)'G', (byte)'S'] or [(byte)'G']:
                mark = WeightMark.Gross;
                return LineFault.None;
            case [(byte)'N', (byte)'T'] or [(byte)'N']:
                mark = WeightMark.Net;
                return LineFault.None;
            case [(byte)'T', (byte)'R']:
                return LineFault.NoValue;
            default:
                return LineFault.UnknownStatus;
        }
    }
}
