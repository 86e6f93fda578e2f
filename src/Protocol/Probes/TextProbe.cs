using System.Text;
using CaptureAgent.Protocol.Encoding;

namespace CaptureAgent.Protocol.Probes;

/// <summary>The <c>text</c> dialect of probes: a number and a unit of temperature, <c>39.8 °C</c>.</summary>
/// <remarks>
/// <code>line = number *SP [ degree *SP ] ( "C" / "F" )     degree = %xB0 (Latin-1) / %xC2.B0 (UTF-8)</code>
/// Nothing else may stand in the line: a label could name another quantity, such as a set point. Without a unit the line is
/// refused.
/// </remarks>
public sealed class TextProbe : IProbeDecoder
{
    private const byte LatinDegree = 0xB0;

    public LineFault Decode(ReadOnlySpan<byte> line, out ProbeReading reading)
    {
        reading = default;
        var rest = line;
        if (!ShownNumber.TryTake(ref rest, out var value))
            return Ascii.IsValid(line) ? LineFault.BadNumber : LineFault.BadShape;

        rest = TakeDegree(rest.Trim((byte)' '));
        if (!Ascii.IsValid(rest))
            return LineFault.BadShape;

        bool isFahrenheit;
        switch (rest)
        {
            case [(byte)'C']:
                isFahrenheit = false;
                break;
            case [(byte)'F']:
                isFahrenheit = true;
                break;
            default:
                return LineFault.UnknownUnit;
        }

        var step = new decimal(1, 0, 0, isNegative: false, scale: value.Scale);
        return ProbeReading.TryMake(value, step, isFahrenheit, out reading) ? LineFault.None : LineFault.BadNumber;
    }

    private static ReadOnlySpan<byte> TakeDegree(ReadOnlySpan<byte> text) => text switch
    {
        [LatinDegree, ..] => text[1..].TrimStart((byte)' '),
        [0xC2, LatinDegree, ..] => text[2..].TrimStart((byte)' '),
        _ => text,
    };
}
