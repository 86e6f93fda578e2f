namespace CaptureAgent.Agent.Thriving;

/// <summary>Learns the noise of this room from its residuals, morning by morning: only from the past, so that a forecast stays one.</summary>
internal sealed class RoomNoise
{
    /// <summary>Residuals after which half of what was believed before is forgotten, about.</summary>
    private const double Memory = 150, LongMemory = 600;

    private const double Least = 0.006, Most = 0.06, MostCorrelated = 0.8;

    private int seen;

    public NoiseLevel Level { get; private set; } = NoiseLevel.Usual;

    public RoomNoise Copy() => (RoomNoise)MemberwiseClone();

    /// <param name="residuals">Standardised, of one morning; with that of the morning before, where there is one.</param>
    public void Learn(List<(double Z, double? Before)> residuals)
    {
        if (residuals.Count == 0)
            return;
        double squares = 0, products = 0;
        var pairs = 0;
        foreach (var (z, before) in residuals)
        {
            squares += Math.Min(z * z, 9);
            if (before is not { } other)
                continue;
            products += Math.Clamp(z, -3, 3) * Math.Clamp(other, -3, 3);
            pairs++;
        }

        seen += residuals.Count;
        var step = Math.Min(residuals.Count / Math.Min(Memory + seen / 2.0, LongMemory), 1 / 3.0);
        // What is new each day is told first; how much is left of the day before comes out of it.
        var fresh = Level.Deviation * Math.Sqrt(1 - Level.Correlation * Level.Correlation) * Math.Exp(0.5 * step * (squares / residuals.Count - 1));
        var correlation = Level.Correlation + (pairs == 0 ? 0 : step * products / pairs);
        correlation = Math.Clamp(correlation, 0, MostCorrelated);
        Level = new NoiseLevel(Math.Clamp(fresh / Math.Sqrt(1 - correlation * correlation), Least, Most), correlation);
    }
}
