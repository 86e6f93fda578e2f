namespace CaptureAgent.Agent.Weighing;

/// <summary>What one standard uncertainty (k = 1) of a weight is made of, in grams: independent parts, added in squares (JCGM 100, 5.1.2).</summary>
/// <param name="Repeatability">Motion of the animal and settling of the scale.</param>
/// <param name="Quantisation">Rounding of the load's level to the division.</param>
/// <param name="Tare">Noise and rounding of the tare's level.</param>
/// <param name="Drift">What the zero may have moved between tare and weight (<see cref="ZeroDrift"/>).</param>
/// <param name="Scale">The scale's own error within its specification, taken as rectangular (JCGM 100, 4.3.7).</param>
internal readonly record struct UncertaintyBudget(double Repeatability, double Quantisation, double Tare, double Drift, double Scale)
{
    public double Combined =>
        Math.Sqrt(Repeatability * Repeatability + Quantisation * Quantisation + Tare * Tare + Drift * Drift + Scale * Scale);

    /// <param name="accuracy">Largest error within the scale's specification, in grams.</param>
    public static double OfScale(double accuracy) => accuracy / Math.Sqrt(3);
}
