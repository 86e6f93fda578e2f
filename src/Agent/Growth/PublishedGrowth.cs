namespace CaptureAgent.Agent.Growth;

/// <summary>Healthy growth from the published curves alone.</summary>
internal sealed class PublishedGrowth : IReferenceGrowth
{
    /// <summary>Between chicks of one published series, about the curve: 10 to 18 % (residuals of the series with single chicks); the middle.</summary>
    private const double Spread = 0.14;

    public static PublishedGrowth Instance { get; } = new();

    /// <remarks>The geometric mean of the species' curves.</remarks>
    public ReferenceGrowth? At(string? species, double ageDays)
    {
        if (species is null || ageDays < 0)
            return null;
        double grams = 0, rate = 0, later = 0, final = 0;
        var n = 0;
        foreach (var at in ReferenceCurves.GrowthAt(species, ageDays))
        {
            grams += Math.Log(at.Grams);
            rate += at.Rate;
            final += Math.Log(at.FinalGrams);
            n++;
        }

        if (n == 0)
            return null;
        foreach (var at in ReferenceCurves.GrowthAt(species, ageDays + 1))
            later += at.Rate;
        return new ReferenceGrowth(Math.Exp(grams / n), Spread, rate / n, 0.005 + 0.2 * rate / n, Math.Exp(final / n), Math.Log(rate / later));
    }
}
