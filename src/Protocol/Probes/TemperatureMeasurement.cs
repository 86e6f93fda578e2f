using CaptureAgent.Protocol.Encoding;
using CaptureAgent.Protocol.Gatt;

namespace CaptureAgent.Protocol.Probes;

/// <summary>Temperature Measurement (0x2A1C) and Intermediate Temperature (0x2A1E) of the Health Thermometer Service (0x1809): one layout.</summary>
/// <param name="Number">In degrees Celsius, or Fahrenheit.</param>
/// <param name="Type">Where the probe measures by its maker's word (<see cref="TemperatureType"/>); none of them is a bowl of formula.</param>
/// <remarks>
/// Bluetooth SIG, Health Thermometer Service 1.0, 3.1: flags, FLOAT, then time and type if the flags' bits 1 and 2 say so; bit 0 is Fahrenheit;
/// the other bits are kept for later use and ignored, and so is what stands behind.
/// </remarks>
public readonly record struct TemperatureMeasurement(MedicalFloat Number, bool IsFahrenheit, DeviceTime? Time, TemperatureType? Type)
{
    public static LineFault Read(ReadOnlySpan<byte> bytes, out TemperatureMeasurement measurement)
    {
        measurement = default;
        if (bytes.Length < 5)
            return LineFault.BadShape;
        var flags = bytes[0];
        var hasTime = (flags & 2) != 0;
        var hasType = (flags & 4) != 0;
        var rest = bytes[5..];
        if (rest.Length < (hasTime ? DeviceTime.Length : 0) + (hasType ? 1 : 0))
            return LineFault.BadShape;
        var time = hasTime ? DeviceTime.Read(rest) : null;
        TemperatureType? type = hasType ? (TemperatureType)rest[hasTime ? DeviceTime.Length : 0] : null;
        measurement = new(MedicalFloat.Read32(bytes[1..]), (flags & 1) != 0, time, type);
        return LineFault.None;
    }
}

/// <summary>Temperature Type (0x2A1D), as numbered by the Bluetooth SIG; other numbers are kept for later use.</summary>
public enum TemperatureType
{
    Armpit = 1,
    Body = 2,
    Ear = 3,
    Finger = 4,
    GastroIntestinal = 5,
    Mouth = 6,
    Rectum = 7,
    Toe = 8,
    Tympanum = 9,
}

/// <summary>Reads the temperature alone.</summary>
/// <param name="isIntermediate">For Intermediate Temperature: the probe has not come to rest.</param>
public sealed class TemperatureMeasurementDecoder(bool isIntermediate) : IProbeDecoder
{
    public LineFault Decode(ReadOnlySpan<byte> line, out ProbeReading reading)
    {
        reading = default;
        var fault = TemperatureMeasurement.Read(line, out var measurement);
        if (fault != LineFault.None)
            return fault;
        if (measurement.Number.Kind != MedicalFloatKind.Finite)
            return LineFault.NoValue;
        if (!ProbeReading.TryMake(measurement.Number.Value, measurement.Number.Resolution, measurement.IsFahrenheit, out reading))
            return LineFault.BadNumber;
        reading = reading with { IsIntermediate = isIntermediate };
        return LineFault.None;
    }
}
