namespace CaptureAgent.Agent.Weighing;

/// <summary>The uncertainty budget of one weight, as JCGM 100 (GUM) adds it: independent parts in squares.</summary>
internal static class Uncertainty
{
    /// <summary>Largest difference that still counts as the same weight: one division, or 0.3 %.</summary>
    public static double Band(double grams, double division) => Math.Max(division, 0.003 * Math.Abs(grams));

    /// <summary>One standard uncertainty (k = 1) in grams of a load less its tare.</summary>
    /// <param name="standardError">Of the load's mean, from motion.</param>
    /// <param name="tareUncertainty">Of the tare's mean, from noise.</param>
    /// <param name="division">Each of the two readings is rounded to it: d/√12 each (JCGM 100 F.2.2.1).</param>
    /// <param name="accuracy">Largest error within the scale's specification, taken as rectangular: a/√3 (JCGM 100 4.3.7).</param>
    public static double Combine(double standardError, double tareUncertainty, double division, double accuracy)
    {
        var resolution = division * division / 12;
        return Math.Sqrt(
            standardError * standardError + tareUncertainty * tareUncertainty
            + 2 * resolution + accuracy * accuracy / 3);
    }
}
