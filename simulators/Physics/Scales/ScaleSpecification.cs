namespace CaptureAgent.Simulators.Physics.Scales;

/// <summary>What the stability mark of a scale is worth.</summary>
public enum FlagConduct
{
    /// <summary>Stable when its own value has stayed within a band for a while, as real scales do; it knows nothing of hands.</summary>
    Honest,
    StuckAtStable,
    StuckAtUnstable,
    Absent,
}

/// <summary>A gram scale, its faults included. Defaults: a common bench scale of 3 kg and 0.1 g.</summary>
public sealed record ScaleSpecification
{
    public decimal DivisionGrams { get; init; } = 0.1m;

    public double CapacityGrams { get; init; } = 3000;

    /// <summary>Readings a second, 2 to 50.</summary>
    public double SampleHertz { get; init; } = 10;

    /// <summary>Standard deviation of a reading's moment about its due time.</summary>
    public double JitterSeconds { get; init; }

    /// <summary>Time constant of the internal low-pass filter (of each stage).</summary>
    public double FilterSeconds { get; init; } = 0.15;

    /// <summary>1 or 2 stages.</summary>
    public int FilterOrder { get; init; } = 1;

    /// <summary>Standard deviation of the electronics' own noise, after the filter.</summary>
    public double NoiseGrams { get; init; } = 0.01;

    /// <summary>Relative error of the slope: 0.0005 shows 0.05 % too much.</summary>
    public double GainError { get; init; }

    /// <summary>Drift of zero at a steady rate.</summary>
    public double DriftGramsPerMinute { get; init; }

    /// <summary>Drift of zero at random: standard deviation after a minute.</summary>
    public double WanderGramsPerRootMinute { get; init; }

    /// <summary>What the zero has still to travel when the scale has just been switched on.</summary>
    public double WarmUpGrams { get; init; }

    /// <summary>In which the warm-up falls to 1/e.</summary>
    public double WarmUpSeconds { get; init; } = 300;

    /// <summary>Follows a slow drift while empty, by half a division a second at most (OIML R 76-1, 4.5.7).</summary>
    public bool TracksZero { get; init; }

    public FlagConduct Flag { get; init; } = FlagConduct.Honest;

    /// <summary>How long its value must have stayed within the band.</summary>
    public double FlagSeconds { get; init; } = 0.8;

    /// <summary>The band, in divisions either way.</summary>
    public double FlagDivisions { get; init; } = 1;

    /// <summary>From power on to the first reading; the zero is taken then, with whatever lies on the pan.</summary>
    public double StartSeconds { get; init; } = 2;
}
