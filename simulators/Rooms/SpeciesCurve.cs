using CaptureAgent.Simulators.Physics;

namespace CaptureAgent.Simulators.Rooms;

/// <summary>How a simulated species grows: a Richards curve between Gompertz and logistic.</summary>
/// <param name="Name">Empty: the register says nothing of it.</param>
/// <param name="FinalGrams">A.</param>
/// <param name="K">Of the logistic with the same A, per day.</param>
/// <param name="Inflection">Day of age of that logistic's inflection.</param>
/// <param name="Gompertz">Grows by the Gompertz curve with K and inflection of its own instead.</param>
public sealed record SpeciesCurve(string Name, double FinalGrams, double K, double Inflection, bool Gompertz)
{
    /// <summary>Logistic and Gompertz fits to published series; the papers are named in the agent's reference-curves.tsv.</summary>
    private static readonly SpeciesCurve[] Listed =
    [
        new("Rosy-faced lovebird", 54.72, 0.18648, 13.289, false),
        new("Cockatiel", 88.0, 0.2243, 13.18, false),
        new("Orange-winged amazon", 397.77, 0.15173, 16.053, false),
        new("Lilac-crowned parrot", 343.05, 0.095935, 14.898, true),
        new("Blue-and-yellow macaw", 1095.6, 0.11081, 33.158, false),
        new("Blue-throated macaw", 844.99, 0.12761, 27.272, false),
        new("Monk parakeet", 112.52, 0.16126, 18.244, false),
        new("Burrowing parrot", 324.27, 0.12274, 9.1526, true),
        new("Blue-eyed cockatoo", 603.97, 0.074367, 21.423, true),
        new("Spix's macaw", 365.71, 0.13488, 21.723, false),
    ];

    public static SpeciesCurve Draw(SeededRandom random, double unlisted)
    {
        if (!random.Chance(unlisted))
            return random.Pick<SpeciesCurve>(Listed);
        var final = random.LogBetween(40, 1200);
        var gompertz = random.Chance(0.5);
        // The allometry of the published series (K = 0.489 A^-0.231, scatter 1.29); a Gompertz K is about 0.57 of the logistic one, its product 1.25.
        var k = 0.489 * Math.Pow(final, -0.231) * Math.Exp(0.2 * Math.Clamp(random.Normal(), -2, 2)) * (gompertz ? 0.57 : 1);
        return new SpeciesCurve("", final, k, (gompertz ? 1.25 : 2.84) * random.Between(0.85, 1.15) / k, gompertz);
    }

    /// <summary>ln(grams) before the peak.</summary>
    public double LogGrams(double age) => Gompertz
        ? Math.Log(FinalGrams) - Math.Exp(-K * (age - Inflection))
        : Math.Log(FinalGrams) - Math.Log(1 + Math.Exp(-K * (age - Inflection)));

    /// <summary>The day at which this share of the final weight is reached.</summary>
    public double AgeAt(double share) => Gompertz
        ? Inflection - Math.Log(-Math.Log(share)) / K
        : Inflection - Math.Log(1 / share - 1) / K;
}
