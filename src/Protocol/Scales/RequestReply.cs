using System.Text;

namespace CaptureAgent.Protocol.Scales;

/// <summary>The <c>request-reply</c> dialect: the scale answers <c>S S      28.40 g</c> when it is asked.</summary>
/// <remarks>
/// <code>line = "S " status [ 1*SP number SP unit ]</code>
/// Status S stable, D moving, + overload, - underload, I understood but not possible now, L wrong parameter. Answers to zero
/// (<c>Z</c>, <c>ZI</c>), tare (<c>T</c>, <c>TI</c>) and the serial number (<c>I4</c>), and the errors <c>ES</c> (syntax),
/// <c>ET</c> (transmission) and <c>EL</c> (logic) carry no weight: no value. The weight stands right-justified in ten columns;
/// the columns are not insisted on. Common practice, no source.
/// </remarks>
public sealed class RequestReply : IScaleDecoder
{
    /// <summary>Asks for the weight now, moving or not.</summary>
    public static ReadOnlySpan<byte> AskNow => "SI\r\n"u8;

    /// <summary>Asks for the next stable weight; the scale may keep the answer back until it times out.</summary>
    public static ReadOnlySpan<byte> AskStable => "S\r\n"u8;

    /// <summary>Sets the scale to zero, once it is stable.</summary>
    public static ReadOnlySpan<byte> Zero => "Z\r\n"u8;

    /// <summary>Takes what lies on the pan as the scale's own tare, once it is stable.</summary>
    public static ReadOnlySpan<byte> Tare => "T\r\n"u8;

    public LineFault Decode(ReadOnlySpan<byte> line, out ScaleReading reading)
    {
        reading = default;
        line = line.Trim((byte)' ');
        if (line.IsEmpty || !Ascii.IsValid(line))
            return LineFault.BadShape;
        if (line is not [(byte)'S', (byte)' ', var status, ..] || (line.Length > 3 && line[3] != (byte)' '))
            return OtherAnswer(line);

        switch ((char)status)
        {
            case 'S':
                return Weight(line[3..], Stability.Stable, out reading);
            case 'D':
                return Weight(line[3..], Stability.Unstable, out reading);
            case '+' when line.Length == 3:
                reading = new(LoadRange.Overload, 0, MassUnit.None, Stability.Unknown, WeightMark.Unknown);
                return LineFault.None;
            case '-' when line.Length == 3:
                reading = new(LoadRange.Underload, 0, MassUnit.None, Stability.Unknown, WeightMark.Unknown);
                return LineFault.None;
            case 'I' or 'L' when line.Length == 3:
                return LineFault.NoValue;
            default:
                return char.IsAsciiLetter((char)status) ? LineFault.UnknownStatus : LineFault.BadShape;
        }
    }

    private static LineFault Weight(ReadOnlySpan<byte> text, Stability stability, out ScaleReading reading)
    {
        var fault = ValueAndUnit.Read(text, out var value, out var unit);
        reading = fault == LineFault.None ? new(LoadRange.Within, value, unit, stability, WeightMark.Unknown) : default;
        return fault;
    }

    private static LineFault OtherAnswer(ReadOnlySpan<byte> line)
    {
        var end = line.IndexOf((byte)' ');
        var word = end < 0 ? line : line[..end];
        return word switch
        {
            [(byte)'E', (byte)'S' or (byte)'T' or (byte)'L'] when end < 0 => LineFault.NoValue,
            [(byte)'Z' or (byte)'T'] or [(byte)'Z' or (byte)'T', (byte)'I'] or [(byte)'I', (byte)'4'] => LineFault.NoValue,
            [>= (byte)'A' and <= (byte)'Z', ..] when word.Length <= 3 => LineFault.UnknownStatus,
            _ => LineFault.BadShape,
        };
    }
}
