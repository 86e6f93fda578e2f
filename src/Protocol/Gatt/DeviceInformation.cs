using System.Buffers.Binary;
using System.Text;

namespace CaptureAgent.Protocol.Gatt;

/// <summary>The characteristics of the Device Information Service (0x180A). Many devices share one serial number: never an identity by itself.</summary>
public static class DeviceInformation
{
    /// <summary>The texts: manufacturer 2A29, model 2A24, serial 2A25, firmware 2A26, hardware 2A27, software 2A28. Some devices fill up with NUL or blanks.</summary>
    public static string Text(ReadOnlySpan<byte> bytes)
    {
        var end = bytes.IndexOf((byte)0);
        return string.Concat(new UTF8Encoding().GetString(end < 0 ? bytes : bytes[..end]).Where(letter => !char.IsControl(letter))).Trim();
    }

    /// <summary>PnP ID (0x2A50); null if it is too short.</summary>
    public static PnpId? ReadPnpId(ReadOnlySpan<byte> bytes) => bytes.Length < 7 ? null : new PnpId(
        bytes[0], BinaryPrimitives.ReadUInt16LittleEndian(bytes[1..]), BinaryPrimitives.ReadUInt16LittleEndian(bytes[3..]), BinaryPrimitives.ReadUInt16LittleEndian(bytes[5..]));
}

/// <param name="Source">Who gave the vendor its number: 1 the Bluetooth SIG, 2 the USB Implementers Forum.</param>
/// <param name="Version">Binary-coded decimal: 0x0102 is 1.0.2.</param>
public readonly record struct PnpId(int Source, int Vendor, int Product, int Version);
