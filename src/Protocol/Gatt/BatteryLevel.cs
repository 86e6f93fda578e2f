namespace CaptureAgent.Protocol.Gatt;

/// <summary>Battery Level (0x2A19) of the Battery Service (0x180F).</summary>
public static class BatteryLevel
{
    /// <summary>Per cent, 0 to 100; null for the values above, which are kept for later use (from memory).</summary>
    public static int? Read(ReadOnlySpan<byte> bytes) => bytes is [<= 100 and var percent, ..] ? percent : null;
}
