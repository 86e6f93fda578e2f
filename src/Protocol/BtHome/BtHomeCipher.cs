using System.Buffers.Binary;
using System.Security.Cryptography;

namespace CaptureAgent.Protocol.BtHome;

/// <summary>Opens the encrypted advertisements of one BTHome device: AES-128-CCM with a tag of four bytes and a counter that must rise.</summary>
/// <remarks>
/// bthome.io, page Encryption: nonce = address (as shown) + D2 FC + device information + counter (as on the air); version 2 has no associated data.
/// A counter that does not rise was heard before, or was recorded and sent again; after its last value it may begin anew.
/// </remarks>
internal sealed class BtHomeCipher : IDisposable
{
    private const int CounterLength = 4;
    private const int TagLength = 4;
    private const int AddressLength = 6;

    /// <summary>So near to the end, a counter that is as near to its beginning has gone round.</summary>
    private const uint NearEnd = 0xFFFF_0000;

    private readonly AesCcm aes;
    private readonly byte[] nonce = new byte[AddressLength + 2 + 1 + CounterLength];
    private readonly byte[] plain = new byte[256];
    private uint? last;

    /// <param name="key">16 bytes.</param>
    /// <param name="address">6 bytes, in the order in which an address is written.</param>
    public BtHomeCipher(ReadOnlySpan<byte> key, ReadOnlySpan<byte> address)
    {
        aes = new AesCcm(key);
        address.CopyTo(nonce);
        nonce[AddressLength] = 0xD2;
        nonce[AddressLength + 1] = 0xFC;
    }

    /// <param name="information">The device information byte.</param>
    /// <param name="sealedBytes">What follows it: cipher text, counter, tag.</param>
    /// <param name="payload">Valid until the next call.</param>
    /// <returns>False where it was not made with this key, or not now.</returns>
    public bool TryOpen(byte information, ReadOnlySpan<byte> sealedBytes, out ReadOnlySpan<byte> payload)
    {
        payload = default;
        var length = sealedBytes.Length - CounterLength - TagLength;
        if (length < 0 || length > plain.Length)
            return false;
        var counterBytes = sealedBytes.Slice(length, CounterLength);
        var counter = BinaryPrimitives.ReadUInt32LittleEndian(counterBytes);
        if (!Rises(counter))
            return false;

        nonce[AddressLength + 2] = information;
        counterBytes.CopyTo(nonce.AsSpan(AddressLength + 3));
        try
        {
            aes.Decrypt(nonce, sealedBytes[..length], sealedBytes[^TagLength..], plain.AsSpan(0, length));
        }
        catch (AuthenticationTagMismatchException)
        {
            return false;
        }

        last = counter;
        payload = plain.AsSpan(0, length);
        return true;
    }

    public void Dispose() => aes.Dispose();

    // What is near the end while the last one was near the beginning was heard before the counter went round.
    private bool Rises(uint counter)
    {
        if (last is not { } before)
            return true;
        return counter > before ? counter < NearEnd || before > ~NearEnd : before >= NearEnd && counter <= ~NearEnd;
    }
}
