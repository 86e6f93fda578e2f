using System.Text;
using CaptureAgent.Protocol.Encoding;

namespace CaptureAgent.Protocol.Scales;

/// <summary>The <c>sign-value</c> dialect: <c>+    28.40 g  </c>, a signed value and its unit in fixed columns.</summary>
/// <remarks>
/// <code>line = [ id ] number *SP [ unit [ 1*SP motion ] ] *SP     id = 6 columns: a word padded with blanks</code>
/// The dialect has no mark of stability. In one large family a blank unit means that the pan moves, so it gives
/// <see cref="Stability.Unstable"/> and <see cref="MassUnit.None"/>; a unit proves nothing, since other scales always send it.
/// Ids: N net, G gross, Stat a status (a word of <see cref="RangeWords"/>); T is the tare itself: no value. A mark behind the
/// unit is taken as some scales send it: <c>? ~ U D M</c> unstable, <c>S ST</c> stable, <c>*</c> unknown, for it
/// means different things. What stands for a load out of range: <see cref="RangeWords"/>. Common practice, no source.
/// </remarks>
public sealed class SignValue : IScaleDecoder
{
    private const int IdColumns = 6;

    public LineFault Decode(ReadOnlySpan<byte> line, out ScaleReading reading)
    {
        reading = default;
        if (!Ascii.IsValid(line))
            return LineFault.BadShape;

        var fault = TakeId(ref line, out var mark);
        if (fault != LineFault.None)
            return fault;

        var rest = line;
        if (ShownNumber.TryTake(ref rest, out var value))
        {
            fault = ReadUnit(rest, out var unit, out var stability);
            if (fault == LineFault.None)
                reading = new(LoadRange.Within, value, unit, stability, mark);
            return fault;
        }

        if (!RangeWords.TryRead(line, out var range, out fault))
            return line.ContainsAnyInRange((byte)'0', (byte)'9') ? LineFault.BadNumber : LineFault.BadShape;
        if (fault == LineFault.None)
            reading = new(range, 0, MassUnit.None, Stability.Unknown, mark);
        return fault;
    }

    /// <summary>Takes the six columns of the id off the front, if the line starts with a word that fills exactly these.</summary>
    private static LineFault TakeId(ref ReadOnlySpan<byte> line, out WeightMark mark)
    {
        mark = WeightMark.Unknown;
        if (line.Length <= IdColumns || !char.IsAsciiLetter((char)line[0]))
            return LineFault.None;

        var id = line[..IdColumns].TrimEnd((byte)' ');
        if (id.Contains((byte)' ') || line[IdColumns..].Trim((byte)' ').IsEmpty)
            return LineFault.None;

        switch (id)
        {
            case [(byte)'N']:
                mark = WeightMark.Net;
                break;
            case [(byte)'G']:
                mark = WeightMark.Gross;
                break;
            case [(byte)'T']:
                return LineFault.NoValue;
            case [(byte)'S', (byte)'t', (byte)'a', (byte)'t']:
                break;
            default:
                // "O-LOAD g" or "OL     g": a word, not an id.
                return RangeWords.TryRead(line, out _, out _) ? LineFault.None : LineFault.UnknownStatus;
        }

        line = line[IdColumns..];
        return LineFault.None;
    }

    private static LineFault ReadUnit(ReadOnlySpan<byte> text, out MassUnit unit, out Stability stability)
    {
        unit = MassUnit.None;
        stability = Stability.Unstable;
        text = text.Trim((byte)' ');
        if (text.IsEmpty)
            return LineFault.None;

        var end = text.IndexOf((byte)' ');
        var motion = end < 0 ? default : text[end..].TrimStart((byte)' ');
        if (!MassUnits.TryParse(end < 0 ? text : text[..end], out unit))
            return LineFault.UnknownUnit;

        Stability? said = motion switch
        {
            [] or [(byte)'*'] => Stability.Unknown,
            [(byte)'?' or (byte)'~' or (byte)'U' or (byte)'D' or (byte)'M'] => Stability.Unstable,
            [(byte)'S'] or [(byte)'S', (byte)'T'] => Stability.Stable,
            _ => null,
        };
        stability = said ?? Stability.Unknown;
        return said is null ? LineFault.UnknownStatus : LineFault.None;
    }
}
