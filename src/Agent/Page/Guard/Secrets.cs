using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace CaptureAgent.Agent.Page.Guard;

/// <summary>Pairing codes and tokens: how they are made, and what is kept of them.</summary>
internal static class Secrets
{
    public const int LongestToken = 128;

    /// <summary>How long a pairing code is good.</summary>
    public static readonly TimeSpan CodeTime = TimeSpan.FromMinutes(10);

    private const int TokenBytes = 32, CodeLength = 8;

    /// <summary>Crockford's base 32 without its look-alikes: nothing to confuse when it is read out.</summary>
    private const string Letters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

    /// <summary>40 random bits, as XXXX-XXXX.</summary>
    public static string NewCode()
    {
        var letters = RandomNumberGenerator.GetString(Letters, CodeLength);
        return $"{letters[..4]}-{letters[4..]}";
    }

    /// <summary>256 random bits, in base 64 for URLs.</summary>
    public static string NewToken() => Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(TokenBytes));

    public static byte[] Hash(string secret) => SHA256.HashData(Encoding.UTF8.GetBytes(secret));

    /// <summary>A code as it was typed: case, blanks and dashes do not matter, nor O for 0 and I or L for 1 (Crockford).</summary>
    public static string Plain(string typed)
    {
        var plain = new StringBuilder(typed.Length);
        foreach (var letter in typed.ToUpperInvariant())
        {
            if (char.IsAsciiLetterOrDigit(letter))
                plain.Append(letter switch { 'O' => '0', 'I' or 'L' => '1', _ => letter });
        }

        return plain.ToString();
    }
}
