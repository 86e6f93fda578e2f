namespace CaptureAgent.Agent.Weighing;

/// <summary>The chance that the weight of now would be a wrong record: off by more than the acceptance band, or of a chick that is touched.</summary>
/// <remarks>
/// By regression trees over the <see cref="Signs"/> (<see cref="Trees"/>), fitted to simulated placings of which that is known: settling-trees.tsv, which says by which command.
/// The evidence for an animal and against a hand is among the signs; the trees weigh one against the other, where rules ask each for its own.
/// Half of those chicks, hands and scales are others than the benchmarks draw, and some weigh further off what is expected than chicks mostly do. Beyond that it is left to the rules.
/// </remarks>
internal sealed class WrongChance
{
    /// <summary>Further off the expected weight, as a ratio's logarithm, it does not decide; it is fitted to somewhat further ones, so that it does not end where it is used.</summary>
    private const double Furthest = 0.15;

    private const double FurthestFitted = 0.2;

    /// <summary>What is less well known, in bands, was not fitted.</summary>
    private const double LargestError = 0.8;

    private static readonly Lazy<Trees> Fitted = new(Read);

    private double odds, at = double.NegativeInfinity;

    /// <param name="error">Standard error in grams.</param>
    /// <param name="tare">Standard uncertainty of the tare, in grams.</param>
    public static bool IsFor(in Acceptance acceptance, double error, double tare) =>
        error < LargestError * acceptance.Band && acceptance.Here.DistanceTo(acceptance.Expected) < FurthestFitted && acceptance.IsTareKnown(tare);

    /// <summary>Whether it is asked; else the rules alone decide.</summary>
    public static bool Decides(in Acceptance acceptance) => acceptance.Here.DistanceTo(acceptance.Expected) < Furthest;

    /// <summary>Of the newest evaluation.</summary>
    public double Chance => 1 / (1 + Math.Exp(-odds));

    public void Clear() => at = double.NegativeInfinity;

    /// <summary>Takes in one evaluation.</summary>
    /// <remarks>The first moment at which a chance looks small is chosen because it does: the log odds are smoothed over the evaluations, and the first one is not taken at its word.</remarks>
    /// <param name="now">Seconds.</param>
    /// <param name="landed">Seconds since the chick was lowered.</param>
    /// <param name="isAnimal">Whether it moves as a free animal does, by <see cref="AnimalEvidence"/>.</param>
    public bool IsSmall(Signs signs, double now, double landed, bool isAnimal)
    {
        const double Kept = 0.5;
        const double FirstMargin = 1;
        const double LongestGap = 1;
        var newest = Fitted.Value.Sum(signs.Values);
        odds = now - at < LongestGap ? Kept * odds + (1 - Kept) * newest : newest + FirstMargin;
        at = now;
        return Chance < Allowed(landed, isAnimal);
    }

    /// <summary>The chance from which on a weight is too doubtful to be told.</summary>
    /// <remarks>
    /// Of those that settle soon few may be wrong, for there are many, and fewest of what does not yet move like an animal: so early, hands and draughts are most of it.
    /// Who has not settled as soon as most is likelier to be held, and can wait; of who has not settled for long more is allowed, for else it is not weighed at all.
    /// </remarks>
    internal static double Allowed(double landed, bool isAnimal)
    {
        const double AtOnce = 0.03;
        const double Soon = 0.015;
        const double Late = 0.15;
        const double Unlike = 0.4;
        const double MostSeconds = 7.5;
        const double SoonSeconds = 10;
        const double LateSeconds = 20;
        var share = isAnimal || landed > SoonSeconds ? 1 : Unlike;
        return share * (landed < MostSeconds ? AtOnce : Soon * Math.Pow(Late / Soon, Math.Clamp((landed - SoonSeconds) / (LateSeconds - SoonSeconds), 0, 1)));
    }

    private static Trees Read()
    {
        using var text = new StreamReader(typeof(WrongChance).Assembly.GetManifestResourceStream("settling-trees.tsv")!);
        var trees = Trees.Read(text);
        return trees.Features <= Signs.Names.Length ? trees : throw new FormatException("settling-trees.tsv asks for more signs than there are: fit the trees again.");
    }
}
