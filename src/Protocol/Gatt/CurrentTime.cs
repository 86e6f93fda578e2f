namespace CaptureAgent.Protocol.Gatt;

/// <summary>Current Time (0x2A2B) of the Current Time Service (0x1805).</summary>
/// <param name="Time">The device's local time.</param>
/// <param name="DayOfWeek">1 Monday to 7 Sunday; 0: not known. Not held against the date.</param>
/// <param name="Fractions256">Fraction of the second, in 256ths.</param>
/// <remarks>Layout: Bluetooth SIG, Current Time Service 1.1 (from memory).</remarks>
public readonly record struct CurrentTime(DeviceTime Time, int DayOfWeek, int Fractions256, TimeAdjustments Adjusted)
{
    public const int Length = 10;

    /// <summary>Null for a value that is no time.</summary>
    public static CurrentTime? Read(ReadOnlySpan<byte> bytes) =>
        bytes.Length >= Length && bytes[7] <= 7 && DeviceTime.Read(bytes) is { } time
            ? new(time, bytes[7], bytes[8], (TimeAdjustments)(bytes[9] & 0x0F))
            : null;
}

/// <summary>Why a device's clock was set last.</summary>
[Flags]
public enum TimeAdjustments
{
    None = 0,
    Manual = 1,
    ExternalReference = 2,
    TimeZone = 4,
    DaylightSaving = 8,
}
