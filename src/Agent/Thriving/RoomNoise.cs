namespace CaptureAgent.Agent.Thriving;

/// <summary>Learns the noise of this room from its residuals, morning by morning: only from the past, so that a forecast stays one.</summary>
internal sealed class RoomNoise
{
    /// <summary>Residuals after which half of what was believed before is forgotten, about.</summary>
    private const double Memory = 300;

    private const double Least = 0.006, Most = 0.06, MostCorrelated = 0.8;

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

        var step = Math.Min(residuals.Count / Memory, 1 / 3.0);
        var deviation = Level.Deviation * Math.Exp(0.5 * step * (squares / residuals.Count - 1));
        var correlation = Level.Correlation + (pairs == 0 ? 0 : 0.5 * Math.Min(pairs / Memory, 1 / 3.0) * products / pairs);
        Level = new NoiseLevel(Math.Clamp(deviation, Least, Most), Math.Clamp(correlation, 0, MostCorrelated));
    }
}
