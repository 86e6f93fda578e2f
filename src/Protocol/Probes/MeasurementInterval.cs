using System.Buffers.Binary;

namespace CaptureAgent.Protocol.Probes;

/// <summary>Measurement Interval (0x2A21) of the Health Thermometer Service.</summary>
public static class MeasurementInterval
{
    /// <summary>Seconds between measurements, 1 to 65,535; 0: only when it is asked to; null: too short.</summary>
    public static int? Read(ReadOnlySpan<byte> bytes) => bytes.Length < 2 ? null : BinaryPrimitives.ReadUInt16LittleEndian(bytes);
}
