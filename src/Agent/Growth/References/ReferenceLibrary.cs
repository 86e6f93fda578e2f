using System.Globalization;
using CaptureAgent.Agent.Growth.Fitting;
using CaptureAgent.Agent.Growth.Models;

namespace CaptureAgent.Agent.Growth.References;

/// <summary>The reference curves of a nursery: from its own records, from published ones, from the group; each says which.</summary>
/// <param name="records">Every chick's growth record.</param>
internal sealed class ReferenceLibrary(IEnumerable<ChickSeries> records) : IReferenceGrowth
{
    /// <summary>Median relative scatter of the published series about their smooth: 10.4 %.</summary>
    private const double CommonSpread = 0.104;

    /// <summary>Between two series of one species in reference-curves.tsv: 12 % at the peak, more before.</summary>
    private const double DoubtOfPublished = 0.15;

    /// <summary>The group's rate is off by a factor of 1.28 for a single species; set to the size of the weights, its curve by about as much where they are few.</summary>
    private const double DoubtOfGroup = 0.25;

    /// <summary>The spread of rates between chicks of one species is not published; a fifth, and half a per cent a day at least. No source.</summary>
    private const double RateSpread = 0.2;

    private const double LeastRateSpread = 0.005;

    private const int LastAge = 150;

    private readonly Dictionary<string, List<ChickSeries>> bySpecies = records
        .Where(series => series.AgeDays.Length > 0)
        .GroupBy(series => Key(series.Species)).ToDictionary(group => group.Key, group => group.ToList());

    private readonly Dictionary<string, ReferenceCurve?> whole = new(StringComparer.Ordinal);
    private readonly Fitter fitter = new();
    private List<(string Species, double[] Logistic)>? shapes;

    /// <summary>The curve of a species; null where nothing is known of it.</summary>
    /// <param name="without">A chick that is to be compared with the others only.</param>
    public ReferenceCurve? Of(string? species, string? without = null)
    {
        if (without is not null)
            return Make(species, without);
        var key = Key(species);
        if (!whole.TryGetValue(key, out var curve))
            whole[key] = curve = Make(species, null);
        return curve;
    }

    public ReferenceGrowth? At(string? species, double ageDays)
    {
        if (Of(species) is not { } curve || curve.At(ageDays) is not { } at)
            return null;
        var rate = curve.Rate(ageDays);
        var (before, after) = (curve.Rate(ageDays - 2), curve.Rate(ageDays + 2));
        var decay = before > 0 && after > 0 ? Math.Clamp(Math.Log(before / after) / 4, 0, 0.5) : 0;
        return new ReferenceGrowth(at.M, at.S, rate, Math.Max(LeastRateSpread, RateSpread * Math.Abs(rate)), curve.PeakGrams, decay);
    }

    /// <summary>The own records that the curve of a species is made from; those without a weight at any age it tells of are among them.</summary>
    public IReadOnlyList<ChickSeries> Records(string? species) => bySpecies.GetValueOrDefault(Key(species)) ?? [];

    private ReferenceCurve? Make(string? species, string? without)
    {
        var records = Records(species);
        var published = species is null ? [] : PublishedSeries.Of(species).Where(series => series.Curve is not null).ToList();
        var name = published.FirstOrDefault()?.Species ?? species?.Trim() ?? "species not registered";
        List<ReferenceWeight[]> own = [.. records.Where(series => series.Chick != without).Select(Weights).Where(weights => weights.Length > 0)];
        ReferenceWeight[] compared = [.. records.Where(series => series.Chick == without).SelectMany(Weights)];
        var ages = own.Count > 0 ? new OwnAges(own) : null;
        // Others that are much younger, or were never weighed so young, tell nothing of this chick: then as if there were none.
        if (ages is not null && 2 * compared.Count(weight => ages.Supports(weight.AgeDays)) < compared.Length)
            ages = null;
        if (published.Count > 0)
        {
            var prior = new ReferencePrior(age => published.Average(series => Math.Log(series.Grams(age)!.Value)), CommonSpread, DoubtOfPublished);
            var citation = Citation(published);
            var alone = FromPrior(ReferenceKind.Published, name, $"published, not this nursery's: {citation}", prior);
            return ages is null ? alone : FromOwn(own, ages, name, prior, $"the published curve ({citation})", alone);
        }

        // Without a published curve the size comes from weights: the other chicks', or else the chick's own.
        ReferenceWeight[] sized = ages is null ? compared : [.. own.SelectMany(weights => weights)];
        if (sized.Length == 0)
            return null;
        var group = GroupShape.Of(species, Shapes());
        var curve = GroupSize.Fitted(group, sized);
        var ofGroup = new ReferencePrior(age => Math.Log(curve.Grams(age)), CommonSpread, DoubtOfGroup);
        var (shape, days) = ($"{group.Name}, {group.Series} series", FirstDays(curve.Hatch));
        return ages is null
            ? FromPrior(ReferenceKind.Group, name, $"shape of {shape}, set to this chick's own weights: it tells of the course, not of the size; {days}", ofGroup)
            : FromOwn(own, ages, name, ofGroup, $"the shape of {shape} ({days})", null);
    }

    private static ReferenceCurve FromPrior(ReferenceKind kind, string name, string source, ReferencePrior prior) =>
        new(kind, name, 0, source, age => new Lms(0, Math.Exp(prior.LogMedian(age)), prior.Spread), 0, LastAge);

    private static ReferenceCurve FromOwn(List<ReferenceWeight[]> own, OwnAges ages, string name, ReferencePrior prior, string borrowed, ReferenceCurve? elsewhere)
    {
        var fit = new LmsFit([.. own.SelectMany(weights => weights)], prior, LastAge);
        var source = string.Create(CultureInfo.InvariantCulture,
            $"this nursery's own records, {own.Count} {(own.Count == 1 ? "chick" : "chicks")}; {ages.Borrowed(prior)} borrowed from {borrowed}; days {ages.First} to {ages.Last} only, of others there are too few own weights");
        return new ReferenceCurve(ReferenceKind.OwnRecords, name, own.Count, source, fit.At, ages.First, ages.Last) { Elsewhere = elsewhere };
    }

    private static ReferenceWeight[] Weights(ChickSeries series) => [.. series.Weights(LastAge)];

    private static string Citation(List<PublishedSeries> published) => string.Create(CultureInfo.InvariantCulture,
        $"{string.Join("; ", published.Select(series => series.Citation).Distinct())}; {published.Sum(series => series.Points)} points in {published.Count} series, number of chicks not told; {FirstDays(published[0].Curve!.Hatch)}");

    private static string FirstDays(HatchWeight hatch) => string.Create(CultureInfo.InvariantCulture,
        $"before day {PublishedCurve.JoinedDay} not the fitted curve, which is no good so young, but a line from it to the {(hatch.IsPublished ? "hatch weight on record" : "hatch weight of parrots of its size")}, {hatch.Grams:0.0} g");

    // Logistic curves of the nursery's own species, each from the mean of its chicks' logarithms: three at least.
    private List<(string Species, double[] Logistic)> Shapes() => shapes ??=
    [
        .. from species in bySpecies
           let fits = species.Value.Select(series => fitter.FitToPeak(GrowthModel.Logistic, series.AgeDays, series.Grams)).Where(fit => fit is { IsIdentifiable: true }).ToList()
           where fits.Count >= 3
           select (species.Value[0].Species ?? "", (double[])[.. Enumerable.Range(0, 3).Select(i => Math.Exp(fits.Average(fit => Math.Log(Math.Max(1e-6, fit!.Parameters[i])))))]),
    ];

    // A species goes by its scientific name, whichever the register has.
    private static string Key(string? species) =>
        species is null ? "" : (PublishedSeries.Of(species).FirstOrDefault()?.Species ?? species.Trim()).ToUpperInvariant();
}
