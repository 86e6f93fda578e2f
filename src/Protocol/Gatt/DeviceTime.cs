using System.Buffers.Binary;

namespace CaptureAgent.Protocol.Gatt;

/// <summary>A device's own clock as the Date Time characteristic (0x2A08) has it: local, without a zone, and often never set. Never a moment of capture.</summary>
/// <param name="Year">1582 to 9999; 0: not known.</param>
/// <param name="Month">1 to 12; 0: not known.</param>
/// <param name="Day">1 to 31; 0: not known.</param>
/// <remarks>Layout and ranges: Bluetooth SIG, GATT Specification Supplement, Date Time (from memory).</remarks>
public readonly record struct DeviceTime(int Year, int Month, int Day, int Hour, int Minute, int Second)
{
    public const int Length = 7;

    /// <summary>Null for fields that no clock shows, or fewer than seven bytes.</summary>
    public static DeviceTime? Read(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < Length)
            return null;
        DeviceTime time = new(BinaryPrimitives.ReadUInt16LittleEndian(bytes), bytes[2], bytes[3], bytes[4], bytes[5], bytes[6]);
        return time is { Year: 0 or (>= 1582 and <= 9999), Month: <= 12, Day: <= 31, Hour: <= 23, Minute: <= 59, Second: <= 59 } ? time : null;
    }
}
