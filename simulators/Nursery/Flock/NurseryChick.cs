using CaptureAgent.Simulators.Physics.Chicks;

namespace CaptureAgent.Simulators.Nursery.Flock;

/// <summary>A chick of the invented nursery.</summary>
internal sealed record NurseryChick(string Code, Species Species, int AgeDays, string Clutch, Temperament Temperament)
{
    /// <summary>Morning weights up to yesterday, newest last.</summary>
    public required IReadOnlyList<(DateOnly Day, decimal Grams)> History { get; init; }

    /// <summary>What it really has this morning, with an empty crop.</summary>
    public required double TrueGrams { get; init; }

    public required DateOnly Hatched { get; init; }

    /// <summary>What it did since yesterday, in per cent, for a weight of today.</summary>
    public double GainPercent(double grams) => 100 * ((grams / (double)History[^1].Grams) - 1);
}
