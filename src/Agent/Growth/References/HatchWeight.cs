namespace CaptureAgent.Agent.Growth.References;

/// <summary>What chicks of a species weigh at hatching.</summary>
/// <param name="IsPublished">False: presumed from the size of the species.</param>
internal readonly record struct HatchWeight(double Grams, bool IsPublished)
{
    // Over the 46 series of reference-curves.tsv that have a hatch weight and reach their peak; the factor about it is 1.43 (one standard deviation).
    private const double AtOneGram = 0.192;

    private const double Exponent = 0.723;

    /// <param name="published">Grams; null where none is published.</param>
    /// <param name="peakGrams">The heaviest that the species becomes before fledging.</param>
    public static HatchWeight Of(double? published, double peakGrams) =>
        published is { } grams ? new(grams, true) : new(AtOneGram * Math.Pow(peakGrams, Exponent), false);
}
