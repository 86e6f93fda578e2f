namespace CaptureAgent.Agent.Weighing;

/// <summary>A level between two steps.</summary>
/// <param name="From">Seconds, like <paramref name="To"/>.</param>
/// <param name="Motion">Standard deviation of its readings in grams, beyond what rounding and the scale make.</param>
/// <param name="Stop">Seconds that the rise to it took beyond the fastest rise this scale has shown; not a number where none is known.</param>
internal readonly record struct Plateau(double From, double To, double Grams, double Motion, double Stop)
{
    public double Seconds => To - From;

    /// <summary>Relative distance from a weight; not a number where that is not known.</summary>
    public double DistanceTo(double expected) => Math.Abs(Math.Log(Math.Max(Grams, 1e-3) / expected));
}
