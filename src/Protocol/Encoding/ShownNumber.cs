namespace CaptureAgent.Protocol.Encoding;

/// <summary>A decimal number as instruments show it: <c>+␣␣28.40</c>, <c>-0000.5</c>, <c>28,4</c>, <c>.5</c>.</summary>
/// <remarks>
/// <code>number = *SP [ "+" / "-" ] *SP ( 1*DIGIT [ mark 1*DIGIT ] / mark 1*DIGIT )     mark = "." / ","</code>
/// A lone comma is a decimal mark; a comma and a point together, a second mark, a mark without a digit behind it and blanks
/// inside the digits refuse the number, for each of them can be the remains of another number. All digits are kept, so
/// 28.40 has two decimals. At most <see cref="MaxDigits"/> digits count, which keeps every conversion of units exact.
/// The grammar is common practice, no source.
/// </remarks>
internal static class ShownNumber
{
    /// <summary>Significant digits and decimals that are taken. With 17, a number times the longest factor
    /// (an ounce in grams, 11 digits) still fits the 28 digits of a decimal.</summary>
    public const int MaxDigits = 17;

    /// <summary>Takes a number off the front of <paramref name="text"/>; false if there is none, or one that cannot be trusted.</summary>
    public static bool TryTake(ref ReadOnlySpan<byte> text, out decimal value)
    {
        value = 0;
        var rest = text.TrimStart((byte)' ');
        var negative = TakeSign(ref rest);
        if (!TryTakeDigits(ref rest, out var mantissa, out var decimals) || NumberGoesOn(rest))
            return false;

        value = new decimal(
            unchecked((int)mantissa), unchecked((int)(mantissa >> 32)), 0, negative && mantissa != 0, unchecked((byte)decimals));
        text = rest;
        return true;
    }

    /// <summary>Takes a sign and the blanks after it, if there is one; true if it is a minus.</summary>
    public static bool TakeSign(ref ReadOnlySpan<byte> text)
    {
        if (text.IsEmpty || text[0] is not ((byte)'+' or (byte)'-'))
            return false;
        var minus = text[0] == (byte)'-';
        text = text[1..].TrimStart((byte)' ');
        return minus;
    }

    private static bool TryTakeDigits(ref ReadOnlySpan<byte> text, out ulong mantissa, out int decimals)
    {
        mantissa = 0;
        decimals = 0;
        var significant = 0;
        var digits = 0;
        var marked = false;
        var at = 0;
        for (; at < text.Length; at++)
        {
            var c = text[at];
            if (char.IsAsciiDigit((char)c))
            {
                mantissa = (mantissa * 10) + (uint)(c - '0');
                digits++;
                significant += mantissa != 0 ? 1 : 0;
                decimals += marked ? 1 : 0;
                if (significant > MaxDigits || decimals > MaxDigits)
                    return false;
            }
            else if (c is (byte)'.' or (byte)',')
            {
                if (marked)
                    return false;
                marked = true;
            }
            else
            {
                break;
            }
        }

        text = text[at..];
        return digits > 0 && (!marked || decimals > 0);
    }

    private static bool NumberGoesOn(ReadOnlySpan<byte> rest)
    {
        rest = rest.TrimStart((byte)' ');
        return !rest.IsEmpty && (char.IsAsciiDigit((char)rest[0]) || rest[0] is (byte)'.' or (byte)',' or (byte)'+' or (byte)'-');
    }
}
