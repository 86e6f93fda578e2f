using System.Buffers.Binary;
using CaptureAgent.Protocol.Gatt;

namespace CaptureAgent.Protocol.Scales;

/// <summary>Weight Measurement (0x2A9D) of the Weight Scale Service (0x181D). The format steps by 5 g or 0.01 lb: no chick's weight.</summary>
/// <param name="Value">In <paramref name="Unit"/>.</param>
/// <param name="Unit">Kilogram or pound.</param>
/// <param name="Time">The scale's own clock.</param>
/// <param name="User">255: not known to the scale.</param>
/// <param name="BodyMassIndex">kg/m².</param>
/// <param name="Height">Metres, or inches with pounds.</param>
/// <remarks>
/// Layout: Bluetooth SIG, Weight Scale Service 1.0, 3.2. Flags: bit 0 pound and inch, 1 time, 2 user, 3 body mass index and height; the others are kept for
/// later use and ignored, and so is what stands behind the fields that the flags name. A weight of 0xFFFF is a measurement that failed (3.2.1; from memory).
/// </remarks>
public readonly record struct WeightMeasurement(
    decimal Value, MassUnit Unit, DeviceTime? Time, int? User, decimal? BodyMassIndex, decimal? Height)
{
    /// <summary>The step of the format, in its unit.</summary>
    public decimal Step => StepOf(Unit == MassUnit.Pound);

    public static LineFault Read(ReadOnlySpan<byte> bytes, out WeightMeasurement measurement)
    {
        measurement = default;
        if (bytes.Length < 3)
            return LineFault.BadShape;
        var flags = bytes[0];
        var raw = BinaryPrimitives.ReadUInt16LittleEndian(bytes[1..]);
        var rest = bytes[3..];
        var hasTime = (flags & 2) != 0;
        var hasUser = (flags & 4) != 0;
        var hasBody = (flags & 8) != 0;
        if (rest.Length < (hasTime ? DeviceTime.Length : 0) + (hasUser ? 1 : 0) + (hasBody ? 4 : 0))
            return LineFault.BadShape;
        if (raw == 0xFFFF)
            return LineFault.NoValue;

        var imperial = (flags & 1) != 0;
        measurement = new(raw * StepOf(imperial), imperial ? MassUnit.Pound : MassUnit.Kilogram, null, null, null, null);
        if (hasTime)
        {
            measurement = measurement with { Time = DeviceTime.Read(rest) };
            rest = rest[DeviceTime.Length..];
        }

        if (hasUser)
        {
            measurement = measurement with { User = rest[0] };
            rest = rest[1..];
        }

        if (hasBody)
        {
            var height = BinaryPrimitives.ReadUInt16LittleEndian(rest[2..]);
            measurement = measurement with { BodyMassIndex = BinaryPrimitives.ReadUInt16LittleEndian(rest) * 0.1m, Height = height * (imperial ? 0.1m : 0.001m) };
        }

        return LineFault.None;
    }

    private static decimal StepOf(bool imperial) => imperial ? 0.01m : 0.005m;
}

/// <summary>Reads the weight alone. A scale of this service sends only values that it has finished, so that each is stable.</summary>
public sealed class WeightMeasurementDecoder : IScaleDecoder
{
    public LineFault Decode(ReadOnlySpan<byte> line, out ScaleReading reading)
    {
        var fault = WeightMeasurement.Read(line, out var measurement);
        reading = fault == LineFault.None ? new(LoadRange.Within, measurement.Value, measurement.Unit, Stability.Stable, WeightMark.Unknown, measurement.Step) : default;
        return fault;
    }
}
