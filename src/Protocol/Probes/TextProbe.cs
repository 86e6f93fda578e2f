using System.Text;
using CaptureAgent.Protocol.Encoding;

namespace CaptureAgent.Protocol.Probes;

/// <summary>The <c>text</c> dialect of probes: a number and a unit of temperature, <c>39.8 °C</c>.</summary>
/// <remarks>
/// <code>line = number *SP [ degree *SP ] ( "C" / "F" )     degree = %xB0 (Latin-1) / %xC2.B0 (UTF-8)</code>
/// Nothing else may stand in the line: a label could name another quantity, such as a set point. Without a unit the line is
/// refused; degrees Fahrenheit convert by (F - 32) * 5 / 9 (NIST SP 811, B.8), to the 28 digits of a decimal.
/// Below absolute zero there is no temperature.
/// </remarks>
public sealed class TextProbe : IProbeDecoder
{
    private const byte LatinDegree = 0xB0;
    private const decimal AbsoluteZero = -273.15m;

    public LineFault Decode(ReadOnlySpan<byte> line, out ProbeReading reading)
    {
        reading = default;
        var rest = line;
        if (!ShownNumber.TryTake(ref rest, out var value))
            return Ascii.IsValid(line) ? LineFault.BadNumber : LineFault.BadShape;

        rest = TakeDegree(rest.Trim((byte)' '));
        if (!Ascii.IsValid(rest))
            return LineFault.BadShape;

        var step = new decimal(1, 0, 0, isNegative: false, scale: value.Scale);
        switch (rest)
        {
            case [(byte)'C']:
                reading = new(value, step);
                break;
            case [(byte)'F']:
                reading = new((value - 32) * 5 / 9, step * 5 / 9);
                break;
            default:
                return LineFault.UnknownUnit;
        }

        if (reading.Celsius >= AbsoluteZero)
            return LineFault.None;
        reading = default;
        return LineFault.BadNumber;
    }

    private static ReadOnlySpan<byte> TakeDegree(ReadOnlySpan<byte> text) => text switch
    {
        [LatinDegree, ..] => text[1..].TrimStart((byte)' '),
        [0xC2, LatinDegree, ..] => text[2..].TrimStart((byte)' '),
        _ => text,
    };
}
