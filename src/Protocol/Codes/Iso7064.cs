namespace CaptureAgent.Protocol.Codes;

/// <summary>The pure systems of ISO/IEC 7064: check characters that make a code congruent to 1.</summary>
/// <remarks>
/// MOD 37,2: digits and letters; the check character may be <c>*</c>, of value 36. MOD 11,2: digits; the check character may
/// be <c>X</c>, of value 10. MOD 97,10: digits, two check digits; letters count as 10 to 35, two digits each, as in ISO 13616
/// and ISO 17442. The check characters stand last, as scanned. Lower case counts as upper case. Characters that have no value
/// in the scheme (separators such as <c>-</c>, <c>.</c>, <c>/</c> and, under MOD 11,2, letters but X) are passed over, so a
/// misread there goes unseen. <c>*</c> and <c>X</c> keep their value in the body, so that their exchange with a neighbour shows.
/// </remarks>
public static class Iso7064
{
    /// <summary>The check characters for a code that has none yet; null if no character of it has a value in the scheme, or there is no scheme.</summary>
    public static string? Compute(CheckScheme scheme, ReadOnlySpan<char> body)
    {
        if (!TrySum(scheme, body, out var sum))
            return null;
        return scheme switch
        {
            CheckScheme.Mod37Comma2 => Character((38 - (2 * sum % 37)) % 37, '*', 36),
            CheckScheme.Mod11Comma2 => Character((12 - (2 * sum % 11)) % 11, 'X', 10),
            CheckScheme.Mod97Comma10 => Digits(98 - (100 * sum % 97)),
            _ => null,
        };
    }

    /// <summary>Whether the code ends with the check characters that belong to it. Always true without a scheme.</summary>
    public static bool Verify(CheckScheme scheme, ReadOnlySpan<char> code)
    {
        var checks = scheme switch
        {
            CheckScheme.None => 0,
            CheckScheme.Mod97Comma10 => 2,
            _ => 1,
        };
        if (checks == 0)
            return true;
        if (code.Length <= checks || !TrySum(scheme, code[..^checks], out var sum))
            return false;

        var (modulus, radix) = System(scheme);
        foreach (var c in code[^checks..])
        {
            var value = ValueOf(scheme, char.ToUpperInvariant(c));
            if (value < 0 || (scheme == CheckScheme.Mod97Comma10 && value > 9))
                return false;
            sum = ((radix * sum) + value) % modulus;
        }

        return sum == 1;
    }

    /// <summary>The body's value in the scheme; false if none of its characters has one.</summary>
    private static bool TrySum(CheckScheme scheme, ReadOnlySpan<char> body, out int sum)
    {
        sum = 0;
        if (scheme == CheckScheme.None)
            return false;
        var any = false;
        var (modulus, radix) = System(scheme);
        foreach (var c in body)
        {
            var value = ValueOf(scheme, char.ToUpperInvariant(c));
            if (value < 0)
                continue;
            any = true;
            // A letter of MOD 97,10 is two decimal digits.
            var shift = scheme == CheckScheme.Mod97Comma10 && value >= 10 ? 100 : radix;
            sum = ((shift * sum) + value) % modulus;
        }

        return any;
    }

    private static (int Modulus, int Radix) System(CheckScheme scheme) => scheme switch
    {
        CheckScheme.Mod37Comma2 => (37, 2),
        CheckScheme.Mod97Comma10 => (97, 10),
        _ => (11, 2),
    };

    /// <summary>The value of an upper-case character; negative if it has none in the scheme.</summary>
    private static int ValueOf(CheckScheme scheme, char c) => (scheme, c) switch
    {
        (_, >= '0' and <= '9') => c - '0',
        (CheckScheme.Mod11Comma2, 'X') => 10,
        (CheckScheme.Mod11Comma2, _) => -1,
        (_, >= 'A' and <= 'Z') => c - 'A' + 10,
        (CheckScheme.Mod37Comma2, '*') => 36,
        _ => -1,
    };

    private static string Character(int value, char extra, int extraValue)
    {
        var c = value == extraValue ? extra : (char)(value < 10 ? '0' + value : 'A' + value - 10);
        return c.ToString();
    }

    private static string Digits(int value) => new([(char)('0' + (value / 10)), (char)('0' + (value % 10))]);
}
