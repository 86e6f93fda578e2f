namespace CaptureAgent.Agent.Growth.References;

/// <summary>How a group of related species grows, apart from its size: what a species borrows that has no published curve of its own.</summary>
/// <param name="RateFactor">K, as a multiple of what a parrot of that size has.</param>
/// <param name="InflectionPhase">K ti: how far along its own time scale the inflection lies.</param>
/// <param name="Series">How many series it was taken from.</param>
internal sealed record GroupShape(string Name, double RateFactor, double InflectionPhase, int Series)
{
    /// <summary>K = 0.489 A^-0.231 a day, A in grams; the factor about it is 1.28 (one standard deviation). Fitted to the logistic curves of reference-curves.tsv.</summary>
    private const double RateAtOneGram = 0.489;

    private const double RateExponent = -0.231;

    /// <summary>Median of K ti over the same curves.</summary>
    private const double CommonPhase = 2.84;

    private static readonly GroupShape Parrots =
        new("parrots of its size (K = 0.489 A^-0.231)", 1, CommonPhase, PublishedSeries.All.Count(series => series.Logistic is not null));

    /// <summary>The genus where at least two series tell of it, else all parrots.</summary>
    /// <param name="others">Asymptote, K and ti of species of this nursery, by logistic curves.</param>
    public static GroupShape Of(string? species, IEnumerable<(string Species, double[] Logistic)> others)
    {
        if (species?.Trim().Split(' ') is not [var genus, _, ..])
            return Parrots;
        List<double[]> members =
        [
            .. PublishedSeries.All.Where(series => IsOf(series.Species) && series.Logistic is not null).Select(series => series.Logistic!.Parameters),
            .. others.Where(other => IsOf(other.Species) && !other.Species.Equals(species.Trim(), StringComparison.OrdinalIgnoreCase)).Select(other => other.Logistic),
        ];
        return members.Count < 2
            ? Parrots
            : new($"the genus {genus}", Math.Exp(members.Average(p => Math.Log(p[1] / CommonRate(p[0])))), members.Average(p => p[1] * p[2]), members.Count);

        bool IsOf(string name) => name.Trim().StartsWith(genus + " ", StringComparison.OrdinalIgnoreCase);
    }

    /// <summary>The logistic curve of a member of the group with this asymptote: A, K, ti.</summary>
    public double[] Logistic(double asymptote)
    {
        var rate = RateFactor * CommonRate(asymptote);
        return [asymptote, rate, InflectionPhase / rate];
    }

    private static double CommonRate(double asymptote) => RateAtOneGram * Math.Pow(asymptote, RateExponent);
}
