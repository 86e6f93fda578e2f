using CaptureAgent.Agent.Growth;

namespace CaptureAgent.Agent.Thriving;

/// <summary>The courses of growth by species, each species made once.</summary>
internal sealed class GrowthPriors(IReferenceGrowth reference, Tuning tuning)
{
    private readonly Dictionary<string, SpeciesGrowth> known = new(StringComparer.OrdinalIgnoreCase);

    public SpeciesGrowth Of(string? species)
    {
        var key = species ?? "";
        if (!known.TryGetValue(key, out var growth))
            known[key] = growth = new SpeciesGrowth(reference, species, tuning);
        return growth;
    }
}
