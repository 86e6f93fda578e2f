namespace CaptureAgent.Agent.Weighing;

/// <summary>How a chick's weight strays about what is expected of it.</summary>
internal static class DaySpread
{
    /// <summary>Standard deviation of the ratio's logarithm from day to day (a choice; no source).</summary>
    private const double Deviation = 0.035;

    /// <summary>Natural logarithm of how much likelier one weight is than another, by what is expected; all in grams.</summary>
    public static double LogOdds(double one, double other, double expected) =>
        (Squared(other, expected) - Squared(one, expected)) / (2 * Deviation * Deviation);

    private static double Squared(double grams, double expected)
    {
        var off = Math.Log(Math.Max(grams, 1e-3) / expected);
        return off * off;
    }
}
