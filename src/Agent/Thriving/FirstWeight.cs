using CaptureAgent.Agent.Growth;

namespace CaptureAgent.Agent.Thriving;

/// <summary>The growth curves that a chick may be on, from its species, age and first weight.</summary>
internal sealed class FirstWeight(IReferenceGrowth reference, Tuning tuning)
{
    /// <summary>Final weights tried where neither species nor age is known; grams.</summary>
    private static readonly double[] Sizes = [40, 75, 140, 270, 500, 950];

    private readonly Dictionary<string, IReadOnlyList<IGrowthCurve>> curves = new(StringComparer.OrdinalIgnoreCase);

    public IReadOnlyList<GrowthStart> StartsOf(string? species, int? ageDays, double grams)
    {
        if (CurvesOf(species) is { Count: > 0 } known)
        {
            return [.. known.Select(curve => ageDays is { } age
                ? new GrowthStart(curve, age, tuning.AheadSpread, 0, tuning.PaceSpread, 1)
                : new GrowthStart(curve, AgeAt(curve, grams), tuning.AheadSpread + 2, 0, tuning.PaceSpread, 1))];
        }

        List<GrowthStart> starts = [];
        if (ageDays is { } days)
        {
            var final = Unlisted.FinalGrams(days, grams);
            foreach (var pace in (ReadOnlySpan<double>)[-0.25, 0, 0.25])
                Add(starts, final, grams, days, pace);
            return starts;
        }

        foreach (var size in Sizes)
        {
            if (grams < 1.2 * size)
                Add(starts, size, grams, null, 0);
        }

        if (starts.Count == 0)
            Add(starts, grams, grams, null, 0);
        return starts;
    }

    // The reference as it is, and the logistic and the Gompertz curve nearest to it: one chick of the species grows by the one, another by the other.
    private IReadOnlyList<IGrowthCurve> CurvesOf(string? species)
    {
        if (species is null)
            return [];
        if (!curves.TryGetValue(species, out var known))
        {
            known = TabledCurve.Of(reference, species) is { } table ? [table, .. Like(table)] : [];
            curves[species] = known;
        }

        return known;
    }

    private static IEnumerable<IGrowthCurve> Like(TabledCurve table)
    {
        var final = table.Log(160);
        var half = AgeAt(table, Math.Exp(final - Math.Log(2)));
        yield return new LogisticCurve(Math.Exp(final), 2 * table.Rate(half), half);
        var third = AgeAt(table, Math.Exp(final - 1));
        yield return new GompertzCurve(Math.Exp(final), table.Rate(third), third);
    }

    private void Add(List<GrowthStart> starts, double final, double grams, int? age, double pace)
    {
        foreach (var curve in Unlisted.Curves(final))
            starts.Add(new GrowthStart(curve, age ?? AgeAt(curve, grams), 2 * tuning.AheadSpread, pace, 1.5 * tuning.PaceSpread, 1));
    }

    // The age at which the curve has this weight.
    private static double AgeAt(IGrowthCurve curve, double grams)
    {
        double low = 0, high = 150;
        for (var i = 0; i < 12; i++)
        {
            var middle = (low + high) / 2;
            if (curve.Log(middle) < Math.Log(grams))
                low = middle;
            else
                high = middle;
        }

        return low;
    }
}
