using System.Globalization;

namespace CaptureAgent.Agent.Thriving;

/// <summary>Looks for the weight that was meant, where a written one cannot be right.</summary>
internal static class DigitSlip
{
    /// <summary>Units mixed up, a decimal point out of place: weights a written one is divided by.</summary>
    private static readonly (double Factor, string What)[] Factors =
    [
        (10, "the decimal point is one place off"), (0.1, "the decimal point is one place off"), (0.01, "the decimal point is two places off"),
        (100, "the decimal point is two places off"), (1 / 28.349523125, "ounces, not grams"), (1000, "milligrams, not grams"), (0.001, "kilograms, not grams"),
    ];

    /// <param name="grams">As written, with this many decimals.</param>
    /// <param name="expected">ln(grams).</param>
    /// <param name="deviation">Of it.</param>
    /// <returns>The likeliest other reading, if it is no odd one itself; null if there is none.</returns>
    public static (double Grams, string What)? Explain(decimal grams, int decimals, double expected, double deviation)
    {
        (double Grams, string What)? best = null;
        // The worse the weight as it stands, the less must another reading fit.
        var closest = Math.Clamp(Math.Abs(Math.Log((double)grams) - expected) / 2, 2.3 * deviation, 3 * deviation);
        foreach (var (other, what) in Readings(grams, decimals))
        {
            // Two digits behind the point explain nothing.
            if (Math.Abs(Math.Log(other / (double)grams)) < Budget.OddWeight * deviation)
                continue;
            var distance = Math.Abs(Math.Log(other) - expected);
            if (distance < closest)
                (best, closest) = ((other, what), distance);
        }

        return best;
    }

    private static IEnumerable<(double Grams, string What)> Readings(decimal grams, int decimals)
    {
        var digits = grams.ToString(FormattableString.Invariant($"F{decimals}"), CultureInfo.InvariantCulture).ToCharArray();
        for (var i = 0; i + 1 < digits.Length; i++)
        {
            var j = digits[i + 1] == '.' ? i + 2 : i + 1;
            if (digits[i] == '.' || j >= digits.Length || digits[i] == digits[j])
                continue;
            (digits[i], digits[j]) = (digits[j], digits[i]);
            var text = new string(digits);
            (digits[i], digits[j]) = (digits[j], digits[i]);
            if (double.Parse(text, CultureInfo.InvariantCulture) is > 0 and var other)
                yield return (other, $"with the digits {digits[i]} and {digits[j]} exchanged");
        }

        foreach (var (factor, what) in Factors)
            yield return ((double)grams / factor, what);
    }
}
