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

    private ReferenceCurve? Make(string? species, string? without)
    {
        var own = (bySpecies.GetValueOrDefault(Key(species)) ?? []).Where(series => series.Chick != without).ToList();
        var published = species is null ? [] : PublishedSeries.Of(species).Where(series => series.Curve is not null).ToList();
        var name = published.FirstOrDefault()?.Species ?? species?.Trim() ?? "species not registered";
        if (published.Count > 0)
        {
            double LogMedian(double age) => published.Average(series => Math.Log(series.Grams(age)!.Value));
            var citation = Citation(published);
            return own.Count > 0
                ? FromOwn(own, name, new ReferencePrior(LogMedian, CommonSpread, DoubtOfPublished), $"the published curve ({citation})")
                : new ReferenceCurve(
                    ReferenceKind.Published, name, 0, $"published, not this nursery's: {citation}",
                    age => new Lms(0, Math.Exp(LogMedian(age)), CommonSpread), LastAge);
        }

        // Without a published curve the size comes from weights: the other chicks', or else the chick's own.
        var sized = own.Count > 0 ? own : without is null ? [] : (bySpecies.GetValueOrDefault(Key(species)) ?? []).Where(series => series.Chick == without).ToList();
        if (sized.Count == 0)
            return null;
        var group = GroupShape.Of(species, Shapes());
        var curve = group.Logistic(AsymptoteOf(sized, group));
        double LogGroup(double age) => Math.Log(GrowthModel.Logistic.Grams(age, curve));
        return own.Count > 0
            ? FromOwn(own, name, new ReferencePrior(LogGroup, CommonSpread, DoubtOfGroup), $"the shape of {group.Name}, {group.Series} series")
            : new ReferenceCurve(
                ReferenceKind.Group, name, 0,
                $"shape of {group.Name}, {group.Series} series, set to this chick's own weights: it tells of the course, not of the size",
                age => new Lms(0, Math.Exp(LogGroup(age)), CommonSpread), LastAge);
    }

    private static ReferenceCurve FromOwn(List<ChickSeries> own, string name, ReferencePrior prior, string borrowed)
    {
        var fit = new LmsFit([.. own.SelectMany(series => series.Weights(LastAge))], prior, LastAge);
        // Each chick's worth against what is presumed, at the ages that have weights.
        var spread = prior.Spread / prior.Doubt;
        var share = spread * spread / (own.Count + spread * spread);
        var source = string.Create(CultureInfo.InvariantCulture,
            $"this nursery's own records, {own.Count} {(own.Count == 1 ? "chick" : "chicks")}; {100 * share:0} % borrowed from {borrowed}, all of it at ages without weights");
        return new ReferenceCurve(ReferenceKind.OwnRecords, name, own.Count, source, fit.At, LastAge);
    }

    private static string Citation(List<PublishedSeries> published) => string.Create(CultureInfo.InvariantCulture,
        $"{string.Join("; ", published.Select(series => series.Citation).Distinct())}; {published.Sum(series => series.Points)} points in {published.Count} series, number of chicks not told; {FirstDays(published[0].Curve!.Hatch)}");

    private static string FirstDays(HatchWeight hatch) => string.Create(CultureInfo.InvariantCulture,
        $"before day {PublishedCurve.JoinedDay} not the fitted curve, which is no good so young, but a line from it to the {(hatch.IsPublished ? "hatch weight on record" : "hatch weight of parrots of its size")}, {hatch.Grams:0.0} g");

    // The asymptote whose group curve lies nearest the weights in the logarithm: the median of what each says. Golden section over a parrot's sizes.
    private static double AsymptoteOf(List<ChickSeries> series, GroupShape group)
    {
        const double Ratio = 0.618;
        var (low, high) = (Math.Log(10), Math.Log(4000));
        for (var i = 0; i < 40; i++)
        {
            var (left, right) = (high - Ratio * (high - low), low + Ratio * (high - low));
            if (Distance(left) < Distance(right))
                high = right;
            else
                low = left;
        }

        return Math.Exp((low + high) / 2);

        double Distance(double logAsymptote)
        {
            var curve = group.Logistic(Math.Exp(logAsymptote));
            var sum = 0.0;
            foreach (var weight in series.SelectMany(each => each.Weights(LastAge)))
                sum += weight.Share * Math.Abs(Math.Log(weight.Grams / GrowthModel.Logistic.Grams(weight.AgeDays, curve)));
            return sum;
        }
    }

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
