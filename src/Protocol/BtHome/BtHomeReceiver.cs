namespace CaptureAgent.Protocol.BtHome;

/// <summary>Takes the advertisements of one BTHome device (version 2, service data of UUID 0xFCD2), plain or encrypted. Never throws on any bytes.</summary>
/// <remarks>
/// bthome.io, pages Format and Encryption. Once a key is set a plain advertisement is refused: anyone could send it. A packet id that was the last one is a
/// repetition and gives nothing.
/// </remarks>
public sealed class BtHomeReceiver : IDisposable
{
    private const int Version = 2;
    private const int AddressLength = 6;

    private readonly BtHomeCipher? cipher;
    private decimal? lastPacket;

    /// <summary>For a device that does not encrypt.</summary>
    public BtHomeReceiver()
    {
    }

    /// <param name="key">16 bytes.</param>
    /// <param name="address">6 bytes, in the order in which an address is written.</param>
    public BtHomeReceiver(ReadOnlySpan<byte> key, ReadOnlySpan<byte> address) => cipher = new BtHomeCipher(key, address);

    /// <summary>Clears the list and fills it with what the advertisement says; it stays empty for a repetition.</summary>
    /// <param name="serviceData">From the device information byte on.</param>
    public LineFault Take(ReadOnlySpan<byte> serviceData, List<BtHomeObject> objects)
    {
        objects.Clear();
        if (serviceData.IsEmpty)
            return LineFault.BadShape;
        var information = serviceData[0];
        if (information >> 5 != Version)
            return LineFault.UnknownStatus;
        var payload = serviceData[1..];

        // Older devices say their address in front.
        if ((information & 2) != 0)
        {
            if (payload.Length < AddressLength)
                return LineFault.BadShape;
            payload = payload[AddressLength..];
        }

        var isSealed = (information & 1) != 0;
        if (isSealed != cipher is not null || isSealed && !cipher!.TryOpen(information, payload, out payload))
            return LineFault.NotAuthentic;
        BtHomeObjects.Read(payload, objects);
        DropRepetition(objects);
        return LineFault.None;
    }

    public void Dispose() => cipher?.Dispose();

    private void DropRepetition(List<BtHomeObject> objects)
    {
        foreach (var one in objects)
        {
            if (one.Id != BtHomeObject.PacketId)
                continue;
            if (one.Value == lastPacket)
                objects.Clear();
            lastPacket = one.Value;
            return;
        }
    }
}
