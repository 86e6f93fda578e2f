using System.Buffers.Binary;
using CaptureAgent.Protocol.Encoding;

namespace CaptureAgent.Protocol.Scales;

/// <summary>The <c>hid</c> dialect: the scale data report of USB HID Point of Sale devices (usage page 0x8D, usage 0x32).</summary>
/// <remarks>
/// <code>report = id status unit scaling weight(2, little-endian)     value = weight * 10^scaling</code>
/// The usual six bytes with report id 3, or 0 where a device has no ids. Status and unit are indices into the usages that a device declares, 0x71.. and 0x51..
/// (USB-IF, HID Point of Sale Usage Tables, Weighing Devices; the layout of the report itself: common practice). Other reports of the device are no reading.
/// Under zero the weight is a magnitude that open decoders read in two ways: no value.
/// </remarks>
public sealed class HidScaleReport : IScaleDecoder
{
    private const int Length = 6;

    public LineFault Decode(ReadOnlySpan<byte> line, out ScaleReading reading)
    {
        reading = default;
        if (line.IsEmpty)
            return LineFault.BadShape;
        if (line[0] is not (0 or 3))
            return LineFault.NoValue;
        if (line.Length < Length)
            return LineFault.BadShape;
        switch (line[1])
        {
            case 2 or 4:
                return Weight(line, Stability.Stable, out reading);
            case 3:
                return Weight(line, Stability.Unstable, out reading);
            case 5:
                reading = new(LoadRange.Underload, 0, MassUnit.None, Stability.Unknown, WeightMark.Unknown);
                return LineFault.None;
            case 6:
                reading = new(LoadRange.Overload, 0, MassUnit.None, Stability.Unknown, WeightMark.Unknown);
                return LineFault.None;
            // Fault; must be calibrated; must be zeroed.
            case 1 or 7 or 8:
                return LineFault.NoValue;
            default:
                return LineFault.UnknownStatus;
        }
    }

    private static LineFault Weight(ReadOnlySpan<byte> bytes, Stability stability, out ScaleReading reading)
    {
        reading = default;
        var unit = bytes[2] switch
        {
            1 => MassUnit.Milligram,
            2 => MassUnit.Gram,
            3 => MassUnit.Kilogram,
            11 => MassUnit.Ounce,
            12 => MassUnit.Pound,
            _ => MassUnit.None,
        };
        if (unit == MassUnit.None)
            return LineFault.UnknownUnit;

        // Beyond these powers no weight of five digits is one that a scale shows.
        var scaling = unchecked((sbyte)bytes[3]);
        if (scaling is < -12 or > 6)
            return LineFault.BadNumber;
        _ = DecimalPower.TryMake(BinaryPrimitives.ReadUInt16LittleEndian(bytes[4..]), scaling, out var value, out var step);
        reading = new(LoadRange.Within, value, unit, stability, WeightMark.Unknown, step);
        return LineFault.None;
    }
}
