namespace CaptureAgent.Agent.Feeding.Probes;

/// <summary>The normal distribution.</summary>
internal static class Normal
{
    /// <summary>Chance of a standard normal value up to x, to 1.5e-7 (Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.26).</summary>
    public static double Cumulative(double x)
    {
        var z = Math.Abs(x) / Math.Sqrt(2);
        var t = 1 / (1 + (0.3275911 * z));
        var tail = 0.5 * t * (0.254829592 + (t * (-0.284496736 + (t * (1.421413741 + (t * (-1.453152027 + (t * 1.061405429)))))))) * Math.Exp(-z * z);
        return x >= 0 ? 1 - tail : tail;
    }
}
