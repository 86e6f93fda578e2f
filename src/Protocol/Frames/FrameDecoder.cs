using CaptureAgent.Protocol.Probes;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Protocol.Frames;

/// <summary>The <c>frame</c> dialect of scales: described bytes.</summary>
/// <param name="unit">Where the description has no unit byte.</param>
public sealed class FrameScale(FrameDescription description, MassUnit unit) : IScaleDecoder
{
    public LineFault Decode(ReadOnlySpan<byte> line, out ScaleReading reading)
    {
        reading = default;
        var fault = FrameParts.Read(description, line, out var value, out var name);
        if (fault != LineFault.None)
            return fault;
        var shown = unit;
        if (name is not null && !MassUnits.TryParse(System.Text.Encoding.ASCII.GetBytes(name), out shown))
            return LineFault.UnknownUnit;
        if (!FrameParts.TryStability(description.Stable, line, out var stability))
            return LineFault.BadShape;
        reading = new(LoadRange.Within, value, shown, stability, WeightMark.Unknown, description.Factor);
        return LineFault.None;
    }
}

/// <summary>The <c>frame</c> dialect of probes: described bytes.</summary>
/// <param name="isFahrenheit">Where the description has no unit byte.</param>
public sealed class FrameProbe(FrameDescription description, bool isFahrenheit) : IProbeDecoder
{
    public LineFault Decode(ReadOnlySpan<byte> line, out ProbeReading reading)
    {
        reading = default;
        var fault = FrameParts.Read(description, line, out var value, out var name);
        if (fault != LineFault.None)
            return fault;
        var fahrenheit = name is null ? isFahrenheit : name == "F";
        return ProbeReading.TryMake(value, description.Factor, fahrenheit, out reading) ? LineFault.None : LineFault.BadNumber;
    }
}

/// <summary>What frames of scales and of probes have in common.</summary>
internal static class FrameParts
{
    /// <param name="unit">The unit's name; null where the description has no unit byte.</param>
    public static LineFault Read(FrameDescription description, ReadOnlySpan<byte> frame, out decimal value, out string? unit)
    {
        (value, unit) = (0, null);
        var fault = description.Accepts(frame);
        if (fault != LineFault.None)
            return fault;
        if (!description.Value.TryRead(frame, out var counts))
            return LineFault.BadShape;
        if (description.Units is { } units)
        {
            if (!FrameField.TryBits(frame, units.Offset, units.Mask, out var bits))
                return LineFault.BadShape;
            if (!units.Names.TryGetValue(bits, out unit))
                return LineFault.UnknownUnit;
        }

        value = counts * description.Factor;
        return LineFault.None;
    }

    public static bool TryStability(FrameBit? stable, ReadOnlySpan<byte> frame, out Stability stability)
    {
        stability = Stability.Unknown;
        if (stable is not { } bit)
            return true;
        if (!FrameField.TryBits(frame, bit.Offset, bit.Mask, out var bits))
            return false;
        stability = bits != 0 == bit.SetMeansStable ? Stability.Stable : Stability.Unstable;
        return true;
    }
}
