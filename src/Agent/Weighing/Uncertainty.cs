namespace CaptureAgent.Agent.Weighing;

/// <summary>The uncertainty budget of one weight, as JCGM 100 (GUM) adds it: independent parts in squares.</summary>
/// <remarks>
/// Repeatability: the standard error from motion and settling. Quantisation: <see cref="Rounding"/> of the load's level and of the tare's. Tare: the error of its level.
/// Drift: what the zero may move between tare and decision (<see cref="ZeroDrift"/>). The parts of one weight stand in <see cref="UncertaintyBudget"/>.
/// The scale's own specification: <see cref="Accuracy"/>, or what station.json says.
/// </remarks>
internal static class Uncertainty
{
    /// <summary>Largest difference that still counts as the same weight: one division, or 0.3 %.</summary>
    public static double Band(double grams, double division) => Math.Max(division, 0.003 * Math.Abs(grams));

    /// <summary>Standard uncertainty from rounding, in grams, of a mean of readings.</summary>
    /// <remarks>Of one reading d/√12 (JCGM 100 F.2.2.1). Readings that move are rounded up and down in turn, and what is left in their mean falls with
    /// exp(-2π²s²/d²) (Widrow and Kollár 2008, Quantization Noise; from memory); a tenth is kept.</remarks>
    /// <param name="division">Scale interval d.</param>
    /// <param name="scatter">Standard deviation s of the readings, in grams.</param>
    public static double Rounding(double division, double scatter)
    {
        const double Least = 0.1;
        var share = scatter / division;
        return division / Math.Sqrt(12) * Math.Max(Least, Math.Exp(-2 * Math.PI * Math.PI * share * share));
    }

    /// <summary>Largest error in grams of a scale of which nothing is said: the maximum permissible error on initial verification of class II, OIML R 76-1 table 6.</summary>
    public static double Accuracy(double gross, double division) =>
        (Math.Abs(gross) / division) switch { <= 5000 => 0.5 * division, <= 20_000 => division, _ => 1.5 * division };

    /// <summary>One standard uncertainty (k = 1) in grams of a load less its tare.</summary>
    /// <param name="standardError">Of the load's level: motion, settling, rounding.</param>
    /// <param name="tareUncertainty">Of the tare's level: noise and rounding.</param>
    /// <param name="accuracy">Largest error within the scale's specification, taken as rectangular: a/√3 (JCGM 100 4.3.7).</param>
    public static double Combine(double standardError, double tareUncertainty, double accuracy) =>
        Math.Sqrt(standardError * standardError + tareUncertainty * tareUncertainty + accuracy * accuracy / 3);
}
