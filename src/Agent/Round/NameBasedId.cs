using System.Security.Cryptography;
using System.Text;

namespace CaptureAgent.Agent.Round;

/// <summary>Ids that follow from a name: a UUID of version 8 (RFC 9562) from its SHA-256.</summary>
internal static class NameBasedId
{
    public static Guid Of(string name)
    {
        var bytes = SHA256.HashData(Encoding.UTF8.GetBytes(name)).AsSpan(0, 16);
        bytes[6] = (byte)(bytes[6] & 0x0F | 0x80);
        bytes[8] = (byte)(bytes[8] & 0x3F | 0x80);
        return new Guid(bytes, bigEndian: true);
    }
}
