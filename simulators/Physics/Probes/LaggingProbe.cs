namespace CaptureAgent.Simulators.Physics.Probes;

/// <summary>A probe that follows what it is in with a first-order lag, or with two (tip and sheath): slower in air than in formula, quicker in rinse water.</summary>
public sealed class LaggingProbe(Bowl bowl, ulong seed)
{
    /// <summary>Time over which the flutter of a stirred bowl forgets itself, in seconds.</summary>
    private const double FlutterSeconds = 1.2;

    private readonly SeededRandom random = new(seed);
    private Bowl bowl = bowl;
    private double seconds, dippedAt, tip = bowl.RoomCelsius, spot, rinse, flutter;
    private Medium medium;

    private enum Medium
    {
        Air,
        Rinse,
        Formula,
    }

    /// <summary>Time constant in formula.</summary>
    public double LagSeconds { get; set; } = 4;

    /// <summary>Second time constant (the sheath), as a part of the first; 0: there is none.</summary>
    public double SheathRatio { get; init; }

    /// <summary>Time constant in air.</summary>
    public double AirLagSeconds { get; init; } = 40;

    /// <summary>Time constant in rinse water, as a part of the one in formula.</summary>
    public double RinseRatio { get; init; } = 0.4;

    public double NoiseCelsius { get; init; } = 0.02;

    /// <summary>Standard deviation of what stirring does to the temperature at the probe.</summary>
    public double FlutterCelsius { get; set; }

    /// <summary>Step of its last digit.</summary>
    public decimal ResolutionCelsius { get; init; } = 0.1m;

    /// <summary>What its tip has, without noise and rounding.</summary>
    public double TipCelsius { get; private set; } = bowl.RoomCelsius;

    /// <summary>Another bowl is before the keeper; its time zero is the moment of the dip.</summary>
    public void Take(Bowl next) => bowl = next;

    /// <summary>Into the formula.</summary>
    /// <param name="warmer">How much warmer than the bowl the place is.</param>
    public void Dip(double warmer = 0) => (medium, spot) = (Medium.Formula, warmer);

    /// <summary>Into the formula at a moment: the bowl's time begins.</summary>
    public void DipAt(double moment, double warmer = 0)
    {
        GoOnTo(moment);
        dippedAt = moment;
        Dip(warmer);
    }

    public void Rinse(double celsius) => (medium, rinse) = (Medium.Rinse, celsius);

    public void TakeOut() => medium = Medium.Air;

    /// <summary>Goes on to a moment and gives the reading of it.</summary>
    public decimal ReadAt(double now)
    {
        GoOnTo(now);
        var shown = (TipCelsius + (NoiseCelsius * random.Normal())) / (double)ResolutionCelsius;
        return (decimal)Math.Round(shown, MidpointRounding.AwayFromZero) * ResolutionCelsius;
    }

    /// <summary>Goes on without a reading.</summary>
    public void GoOnTo(double now)
    {
        while (seconds < now - 1e-9)
        {
            var step = Math.Min(0.1, now - seconds);
            Go(step);
            seconds += step;
        }
    }

    private void Go(double step)
    {
        var (surroundings, lag) = medium switch
        {
            Medium.Formula => (bowl.CelsiusAt(seconds + (step / 2) - dippedAt) + spot + Flutter(step), LagSeconds),
            Medium.Rinse => (rinse, LagSeconds * RinseRatio),
            _ => (bowl.RoomCelsius, AirLagSeconds),
        };
        var follows = SheathRatio > 0 ? 1 - Math.Exp(-step / (lag * SheathRatio)) : 1;
        tip += (surroundings - tip) * follows;
        TipCelsius += (tip - TipCelsius) * (1 - Math.Exp(-step / lag));
    }

    // A first-order random walk about nothing (Ornstein and Uhlenbeck).
    private double Flutter(double step)
    {
        if (FlutterCelsius <= 0)
            return 0;
        var kept = Math.Exp(-step / FlutterSeconds);
        flutter = (flutter * kept) + (FlutterCelsius * Math.Sqrt(1 - (kept * kept)) * random.Normal());
        return flutter;
    }
}
