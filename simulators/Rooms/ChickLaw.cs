using CaptureAgent.Simulators.Physics;

namespace CaptureAgent.Simulators.Rooms;

/// <summary>The law that one simulated chick grows by: its species' curve at its own size and pace, then the recession. How it wanders from that is not part of it.</summary>
/// <param name="Size">ln of its weight beside the curve.</param>
/// <param name="Pace">Of its age on the curve.</param>
/// <param name="Shift">Days by which it is ahead on it.</param>
/// <param name="Recession">Part of the peak weight that is lost at weaning.</param>
public sealed record ChickLaw(SpeciesCurve Species, double Size, double Pace, double Shift, double Recession, double RecessionDays)
{
    /// <summary>Standard deviation of <see cref="Size"/> among chicks.</summary>
    public const double SizeSpread = 0.08;

    private const double PaceSpread = 0.05, ShiftSpread = 0.7;

    /// <summary>Day of age on which growth ends.</summary>
    public double PeakAge { get; } = Species.AgeAt(0.97) / Pace;

    /// <summary>ln(grams) at hatching of a chick of usual size.</summary>
    public double LogHatched => Species.LogGrams(Shift);

    public static ChickLaw Draw(SpeciesCurve species, SeededRandom random) => new(
        species, SizeSpread * random.Normal(), Math.Exp(PaceSpread * random.Normal()), ShiftSpread * random.Normal(),
        Math.Clamp(0.11 * Math.Exp(0.5 * random.Normal()), 0.02, 0.25), random.Between(14, 30));

    public bool IsGrowing(int age) => age <= PeakAge;

    /// <summary>ln(grams) of a chick of usual size before the peak.</summary>
    public double LogGrams(int age) => Species.LogGrams(age * Pace + Shift);

    /// <summary>Gain of ln(weight) from the day before.</summary>
    public double Gain(int age) => IsGrowing(age) ? LogGrams(age) - LogGrams(age - 1) : age - PeakAge <= RecessionDays ? Math.Log(1 - Recession) / RecessionDays : 0;
}
