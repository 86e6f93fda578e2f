namespace CaptureAgent.Protocol.BtHome;

/// <summary>One number of a BTHome advertisement.</summary>
/// <param name="Id">Object id.</param>
/// <param name="Value">With the factor of the object, which is also its step.</param>
public readonly record struct BtHomeObject(byte Id, decimal Value)
{
    public const byte PacketId = 0x00;
    public const byte Battery = 0x01;
    public const byte MassKilograms = 0x06;
    public const byte MassPounds = 0x07;
    public const byte Button = 0x3A;

    /// <summary>The objects of temperature, in degrees Celsius, the finest first.</summary>
    public static ReadOnlySpan<byte> Temperatures => [0x02, 0x45, 0x58, 0x57];
}
