using System.Text;
using System.Text.RegularExpressions;
using CaptureAgent.Protocol.Encoding;

namespace CaptureAgent.Protocol.Scales;

/// <summary>The <c>custom</c> dialect: a pattern that the user writes for the whole line.</summary>
/// <remarks>
/// Groups: <c>value</c> and <c>unit</c> must exist, <c>sign</c> and <c>stable</c> may. A sign stands either in <c>sign</c>
/// or in <c>value</c>. A blank <c>unit</c> is unstable and without unit, as in <see cref="SignValue"/>. <c>stable</c> says stable if
/// it took part, is not blank and is none of the marks of motion <c>? ~ U US D M 0</c>; otherwise unstable; without that group
/// nothing is known. Lines of overload do not match and are refused, so they are counted but never read as a weight.
/// A line costs some allocations, unlike in the other dialects.
/// </remarks>
public sealed class CustomPattern : IScaleDecoder
{
    private readonly Regex regex;
    private readonly bool hasSign;
    private readonly bool hasStable;

    /// <param name="regex">Matches the whole line, with the groups value and unit.</param>
    internal CustomPattern(Regex regex)
    {
        this.regex = regex;
        var names = regex.GetGroupNames();
        hasSign = names.Contains("sign");
        hasStable = names.Contains("stable");
    }

    public LineFault Decode(ReadOnlySpan<byte> line, out ScaleReading reading)
    {
        reading = default;
        if (!Ascii.IsValid(line))
            return LineFault.BadShape;

        var match = regex.Match(System.Text.Encoding.ASCII.GetString(line));
        if (!match.Success)
            return LineFault.BadShape;
        if (!TryReadValue(line, match.Groups, out var value))
            return LineFault.BadNumber;

        var stability = ReadStability(line, match.Groups);
        var text = Text(line, match.Groups["unit"]);
        if (text.IsEmpty)
            stability = Stability.Unstable;
        else if (!MassUnits.TryParse(text, out _))
            return LineFault.UnknownUnit;

        _ = MassUnits.TryParse(text, out var unit);
        reading = new(LoadRange.Within, value, unit, stability, WeightMark.Unknown);
        return LineFault.None;
    }

    private bool TryReadValue(ReadOnlySpan<byte> line, GroupCollection groups, out decimal value)
    {
        value = 0;
        var text = Text(line, groups["value"]);
        var sign = hasSign ? Text(line, groups["sign"]) : default;
        if (sign.Length > 1 || (sign.Length == 1 && sign[0] is not ((byte)'+' or (byte)'-')))
            return false;
        if (sign.Length == 1 && text.Length > 0 && text[0] is (byte)'+' or (byte)'-')
            return false;
        if (!ShownNumber.TryTake(ref text, out value) || !text.IsEmpty)
            return false;
        if (sign.Length == 1 && sign[0] == (byte)'-' && value != 0)
            value = -value;
        return true;
    }

    private Stability ReadStability(ReadOnlySpan<byte> line, GroupCollection groups)
    {
        if (!hasStable)
            return Stability.Unknown;
        return Text(line, groups["stable"]) switch
        {
            [] => Stability.Unstable,
            [(byte)'?' or (byte)'~' or (byte)'U' or (byte)'u' or (byte)'D' or (byte)'d' or (byte)'M' or (byte)'m' or (byte)'0'] => Stability.Unstable,
            [(byte)'U' or (byte)'u', (byte)'S' or (byte)'s'] => Stability.Unstable,
            _ => Stability.Stable,
        };
    }

    // The string was made of these very bytes, one character each.
    private static ReadOnlySpan<byte> Text(ReadOnlySpan<byte> line, Group group) =>
        group.Success ? line.Slice(group.Index, group.Length).Trim((byte)' ') : default;
}
