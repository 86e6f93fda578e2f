namespace CaptureAgent.Simulators.Rooms;

/// <summary>What a room is like.</summary>
public sealed record RoomConditions
{
    public int Chicks { get; init; } = 100;

    /// <summary>Mornings simulated; the first chicks hatch before the first.</summary>
    public int Days { get; init; } = 70;

    /// <summary>Standard deviation of the day-to-day noise in ln(weight).</summary>
    public double Noise { get; init; } = 0.02;

    /// <summary>Of the noise, from one day to the next.</summary>
    public double Correlation { get; init; } = 0.4;

    /// <summary>Standard deviation of what all chicks of a morning have in common, in ln(weight).</summary>
    public double CommonNoise { get; init; } = 0.003;

    /// <summary>How far a chick's growth wanders from its curve, as a share of it.</summary>
    public double OwnWander { get; init; } = 0.03;

    /// <summary>Share of mornings on which a chick is not weighed.</summary>
    public double Missing { get; init; } = 0.02;

    /// <summary>Share of chicks whose species the published curves do not list.</summary>
    public double Unlisted { get; init; } = 0.3;

    /// <summary>Share of chicks without a date of hatching.</summary>
    public double NoHatchDate { get; init; } = 0.1;

    /// <summary>The scale's division in grams.</summary>
    public double Division { get; init; } = 0.1;

    public int LargestClutch { get; init; } = 4;
}
