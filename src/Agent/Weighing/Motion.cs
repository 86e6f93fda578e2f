namespace CaptureAgent.Agent.Weighing;

/// <summary>How much a chick moves while it is weighed: the force it makes, and the momentum that it swings between.</summary>
/// <remarks>
/// Two numbers, for a hand betrays itself in one or the other: it takes away most of both, and where it trembles (5 to 10 Hz, physiological tremor; from memory) the force of
/// that looks like a chick's, but its momentum, which falls with the frequency, does not.
/// </remarks>
/// <param name="Force">Standard deviation of the readings about their trend beyond what rounding and the scale make, in grams.</param>
/// <param name="Momentum">Standard deviation of their integral about its line, beyond the same; gram-seconds.</param>
/// <param name="ForceNoise">What rounding and the scale make of <paramref name="Force"/>; less than a third of it is never told.</param>
/// <param name="MomentumNoise">And of <paramref name="Momentum"/>.</param>
internal readonly record struct Motion(double Force, double Momentum, double ForceNoise, double MomentumNoise)
{
    private const double Told = 1.0 / 3;

    /// <summary>Length of the stretch that shows it.</summary>
    public double Seconds { get; init; }

    /// <param name="delay">Of the scale's filter, in seconds.</param>
    /// <param name="division">Scale interval d, in grams.</param>
    /// <param name="still">Standard deviation of the readings when nothing moves, in grams.</param>
    public static Motion Of(in ImpulseLine line, double delay, double division, double still)
    {
        var reading = Math.Sqrt(division * division / 12 + still * still);

        // White readings, cumulated, are a random walk; it strays from its best line by the root of n/15 steps (variance of a detrended Brownian motion, 1/15; from memory).
        var step = line.Seconds / Math.Max(1, line.Count - 1);
        var walk = reading * Math.Sqrt(step * step * line.Count / 15 + delay * delay);
        return new Motion(Beyond(line.Motion, reading), Beyond(line.Strays, walk), reading, walk) { Seconds = line.Seconds };
    }

    private static double Beyond(double all, double noise) => Math.Sqrt(Math.Max(all * all - noise * noise, Told * Told * noise * noise));
}
