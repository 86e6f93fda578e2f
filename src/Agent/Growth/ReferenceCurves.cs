using CaptureAgent.Agent.Growth.References;

namespace CaptureAgent.Agent.Growth;

/// <summary>The weights that published growth allows a chick that has no weights of its own yet.</summary>
internal static class ReferenceCurves
{
    /// <summary>A first weight is only judged within this factor, either way.</summary>
    private const double Wide = 2;

    /// <summary>Relative standard error of an asymptote from which on the series ended too early to tell where growth ends.</summary>
    private const double UnknownEnd = 1 / 3.0;

    private static readonly Lazy<ILookup<string, PublishedCurve>> Curves = new(() => PublishedSeries.All
        .SelectMany(series => new[] { series.Species, series.English }, (series, name) => (series, name))
        .SelectMany(named => new[] { named.series.Logistic, named.series.Gompertz }, (named, curve) => (named.name, curve))
        .Where(named => named.curve is not null)
        .ToLookup(named => named.name, named => named.curve!, StringComparer.OrdinalIgnoreCase));

    /// <summary>Those whose series came near enough to the end of growth to tell it.</summary>
    private static readonly Lazy<ILookup<string, PublishedCurve>> Ended = new(() => Curves.Value
        .SelectMany(named => named, (named, curve) => (name: named.Key, curve))
        .Where(named => named.curve.AsymptoteError < UnknownEnd * named.curve.Parameters[0])
        .ToLookup(named => named.name, named => named.curve, StringComparer.OrdinalIgnoreCase));

    /// <summary>The weights a chick of the species can have at an age; null where the species is not among the curves.</summary>
    public static PlausibleRange? At(string? species, int ageDays)
    {
        if (species is null || ageDays < 0)
            return null;
        double low = double.MaxValue, high = 0, product = 1;
        var n = 0;
        foreach (var curve in Curves.Value[species.Trim()])
        {
            var grams = curve.Grams(ageDays);
            // Where the hatch weight is only presumed, neither it nor the curve alone is to be trusted.
            var other = curve.Hatch.IsPublished ? grams : curve.Fitted(ageDays);
            low = Math.Min(low, Math.Min(grams, other));
            high = Math.Max(high, Math.Max(grams, other));
            product *= grams;
            n++;
        }

        return n == 0 ? null : new PlausibleRange(low / Wide, Math.Pow(product, 1.0 / n), high * Wide);
    }

    /// <summary>Grams by age in days, and the asymptote, of each published curve of the species as it was fitted; none where it is not among them.</summary>
    /// <remarks>For shapes among many others, each weighed by what it foretells: there a curve that is wrong in the first days soon counts for nothing.</remarks>
    public static IEnumerable<(Func<double, double> GramsAt, double Asymptote)> Of(string? species) =>
        species is null ? [] : Curves.Value[species.Trim()].Select(curve => ((Func<double, double>)curve.Fitted, curve.Parameters[0]));

    /// <summary>Weight in grams, growth rate d ln(weight)/dt and final weight of every published curve of the species at an age; none where it is not listed, or its series ended long before growth does.</summary>
    /// <remarks>As fitted, as a course beside others; ages before <see cref="PublishedCurve.JoinedDay"/> are not led to the hatch weight.</remarks>
    public static IEnumerable<(double Grams, double Rate, double FinalGrams)> GrowthAt(string species, double ageDays) =>
        Ended.Value[species.Trim()].Select(curve => (curve.Fitted(ageDays), curve.Model.RelativeRate(ageDays, curve.Parameters), curve.Parameters[0]));
}
