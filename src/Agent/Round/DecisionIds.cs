using System.Security.Cryptography;
using System.Text;

namespace CaptureAgent.Agent.Round;

/// <summary>Ids of decisions. The same decision in a replay has the same id (a name-based UUID of version 8, RFC 9562): stored twice, it is one row.</summary>
internal sealed class DecisionIds(string station)
{
    private long sequence;

    public Guid Next(string kind, DateTimeOffset at)
    {
        var name = FormattableString.Invariant($"{station}/{kind}/{at.UtcTicks}/{sequence++}");
        var bytes = SHA256.HashData(Encoding.UTF8.GetBytes(name)).AsSpan(0, 16);
        bytes[6] = (byte)(bytes[6] & 0x0F | 0x80);
        bytes[8] = (byte)(bytes[8] & 0x3F | 0x80);
        return new Guid(bytes, bigEndian: true);
    }
}
