namespace CaptureAgent.Simulators.Physics.Probes;

/// <summary>A probe that follows what it is in with a first-order lag: slower in air than in formula.</summary>
public sealed class LaggingProbe(Bowl bowl, ulong seed)
{
    private readonly SeededRandom random = new(seed);
    private double seconds;
    private bool dipped;

    /// <summary>Time constant in formula.</summary>
    public double LagSeconds { get; init; } = 4;

    /// <summary>Time constant in air.</summary>
    public double AirLagSeconds { get; init; } = 40;

    public double NoiseCelsius { get; init; } = 0.02;

    /// <summary>Step of its last digit.</summary>
    public decimal ResolutionCelsius { get; init; } = 0.1m;

    /// <summary>What its tip has, without noise and rounding.</summary>
    public double TipCelsius { get; private set; } = bowl.RoomCelsius;

    public void Dip() => dipped = true;

    public void TakeOut() => dipped = false;

    /// <summary>Goes on to a moment and gives the reading of it.</summary>
    public decimal ReadAt(double now)
    {
        while (seconds < now - 1e-9)
        {
            var step = Math.Min(0.1, now - seconds);
            var surroundings = dipped ? bowl.CelsiusAt(seconds + (step / 2)) : bowl.RoomCelsius;
            TipCelsius += (surroundings - TipCelsius) * (1 - Math.Exp(-step / (dipped ? LagSeconds : AirLagSeconds)));
            seconds += step;
        }

        var shown = (TipCelsius + (NoiseCelsius * random.Normal())) / (double)ResolutionCelsius;
        return (decimal)Math.Round(shown, MidpointRounding.AwayFromZero) * ResolutionCelsius;
    }
}
