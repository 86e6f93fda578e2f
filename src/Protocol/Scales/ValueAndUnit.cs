using CaptureAgent.Protocol.Encoding;

namespace CaptureAgent.Protocol.Scales;

/// <summary>The end that most dialects share: a number, a unit, and nothing else up to the end of the line.</summary>
internal static class ValueAndUnit
{
    public static LineFault Read(ReadOnlySpan<byte> text, out decimal value, out MassUnit unit)
    {
        unit = MassUnit.None;
        if (!ShownNumber.TryTake(ref text, out value))
            return LineFault.BadNumber;
        return MassUnits.TryParse(text, out unit) ? LineFault.None : LineFault.UnknownUnit;
    }
}
