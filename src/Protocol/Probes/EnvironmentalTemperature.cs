using System.Buffers.Binary;

namespace CaptureAgent.Protocol.Probes;

/// <summary>Temperature (0x2A6E) of the Environmental Sensing Service (0x181A): hundredths of a degree Celsius.</summary>
/// <remarks>Bluetooth SIG, GATT Specification Supplement, Temperature: sint16, -273.15 to +327.67; 0x8000 is a value that is not known (from memory).</remarks>
public sealed class EnvironmentalTemperature : IProbeDecoder
{
    public LineFault Decode(ReadOnlySpan<byte> line, out ProbeReading reading)
    {
        reading = default;
        if (line.Length < 2)
            return LineFault.BadShape;
        var hundredths = BinaryPrimitives.ReadInt16LittleEndian(line);
        if (hundredths == short.MinValue)
            return LineFault.NoValue;
        return ProbeReading.TryMake(new decimal(Math.Abs((int)hundredths), 0, 0, hundredths < 0, 2), 0.01m, isFahrenheit: false, out reading)
            ? LineFault.None
            : LineFault.BadNumber;
    }
}
