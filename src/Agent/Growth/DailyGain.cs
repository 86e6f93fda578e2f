namespace CaptureAgent.Agent.Growth;

/// <summary>The most that a healthy hand-reared parrot chick gains in a day, by age.</summary>
/// <remarks>The largest of 17 hand-reared series of 16 species (mean daily gain from a smoothing spline through published weights by age: among them
/// Tschudin et al. 2010, Hanson 1987, Sweeney 2000), rounded up. Wide on purpose: it serves to tell an impossible weight, not a good one.</remarks>
internal static class DailyGain
{
    private static readonly (int ThroughDay, double Gain)[] Most =
        [(3, 0.45), (7, 0.36), (14, 0.19), (21, 0.13), (28, 0.09), (42, 0.07), (int.MaxValue, 0.05)];

    /// <summary>As a fraction of the weight; the largest where the age is not known.</summary>
    public static double MostAt(int? ageDays)
    {
        foreach (var (through, gain) in Most)
        {
            if (ageDays is not { } age || age <= through)
                return gain;
        }

        return Most[^1].Gain;
    }

    /// <summary>The largest ratio that growth alone can make between two ages.</summary>
    public static double MostRatio(int? ageDays, int days)
    {
        var ratio = 1.0;
        for (var i = 0; i < Math.Min(days, 120); i++)
            ratio *= 1 + MostAt(ageDays - i);
        return ratio;
    }
}
