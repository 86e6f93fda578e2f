using System.Globalization;

namespace CaptureAgent.Agent.Answers.Voice;

/// <summary>Numbers with decimals and nouns, and codes letter by letter.</summary>
internal static class SpokenNumber
{
    private const decimal Most = 999_999;

    /// <param name="decimals">Said one by one, zeros too.</param>
    /// <param name="noun">Singular and plural; null: no noun follows.</param>
    public static string Of(INumberWords words, decimal value, int decimals, (string One, string Many)? noun = null)
    {
        var rounded = Math.Clamp(Math.Round(value, decimals, MidpointRounding.AwayFromZero), -Most, Most);
        var size = Math.Abs(rounded);
        var whole = (int)decimal.Truncate(size);
        var text = words.Cardinal(whole, beforeNoun: noun is not null && decimals == 0);
        if (rounded < 0)
            text = $"{words.Minus} {text}";
        if (decimals > 0)
        {
            var digits = size.ToString($"F{decimals}", CultureInfo.InvariantCulture)[^decimals..];
            text = $"{text} {words.DecimalMark} {string.Join(' ', digits.Select(digit => words.Cardinal(digit - '0', false)))}";
        }

        return noun is not { } named ? text : $"{text} {(decimals == 0 && whole == 1 ? named.One : named.Many)}";
    }

    /// <summary>AM-0147 is "A M one four seven": letters and digits one by one, without signs and leading zeros.</summary>
    public static string Spell(INumberWords words, string code)
    {
        List<string> said = [];
        for (var i = 0; i < code.Length; i++)
        {
            var leads = code[i] == '0' && (i == 0 || !char.IsAsciiDigit(code[i - 1]) || AllZeros(code, i)) && i + 1 < code.Length && char.IsAsciiDigit(code[i + 1]);
            if (char.IsAsciiDigit(code[i]) && !leads)
                said.Add(words.Cardinal(code[i] - '0', false));
            else if (char.IsLetter(code[i]))
                said.Add(char.ToUpperInvariant(code[i]).ToString());
        }

        return string.Join(' ', said);
    }

    // All digits of this number before place i are zeros.
    private static bool AllZeros(string code, int i)
    {
        while (i > 0 && char.IsAsciiDigit(code[i - 1]))
        {
            if (code[--i] != '0')
                return false;
        }

        return true;
    }
}
