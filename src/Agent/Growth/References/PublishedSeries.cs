using System.Globalization;
using CaptureAgent.Agent.Growth.Models;

namespace CaptureAgent.Agent.Growth.References;

/// <summary>Growth of one species as one paper published it: a row of reference-curves.tsv, where the columns are told.</summary>
/// <param name="Points">How many weights were read off the paper's figure; how many chicks they were of is not known.</param>
/// <param name="Curve">The model that describes the series better, up to the peak; null if none does.</param>
/// <param name="PeakAgeDays">Where growth ends; later weights recede.</param>
/// <param name="Recession">Part of the peak that is lost until <paramref name="RecessionAgeDays"/>; null where the series ends before.</param>
internal sealed record PublishedSeries(
    string Species, string English, string Family, string Series, int Points, double? HatchGrams, double PeakGrams, double PeakAgeDays,
    double? Recession, double? RecessionAgeDays, double? Scatter, PublishedCurve? Logistic, PublishedCurve? Gompertz, PublishedCurve? Curve, string Citation)
{
    private static readonly Lazy<IReadOnlyList<PublishedSeries>> Rows = new(Load);

    public static IReadOnlyList<PublishedSeries> All => Rows.Value;

    /// <summary>By scientific or English name, letter case ignored.</summary>
    public static IEnumerable<PublishedSeries> Of(string species)
    {
        var name = species.Trim();
        return All.Where(series => series.Species.Equals(name, StringComparison.OrdinalIgnoreCase) || series.English.Equals(name, StringComparison.OrdinalIgnoreCase));
    }

    /// <summary>Grams at an age: the curve, led to the hatch weight in the first days, up to the peak, from there the recession told, evenly in the logarithm; then level.</summary>
    public double? Grams(double ageDays)
    {
        if (Curve is not { } curve)
            return null;
        var grams = curve.Grams(Math.Min(ageDays, PeakAgeDays));
        if (ageDays <= PeakAgeDays || Recession is not { } recession || RecessionAgeDays is not { } until)
            return grams;
        return grams * Math.Pow(1 - recession, Math.Min(1, (ageDays - PeakAgeDays) / (until - PeakAgeDays)));
    }

    private static List<PublishedSeries> Load()
    {
        using var stream = typeof(PublishedSeries).Assembly.GetManifestResourceStream("reference-curves.tsv")!;
        using var reader = new StreamReader(stream);
        List<PublishedSeries> rows = [];
        string[]? header = null;
        while (reader.ReadLine() is { } line)
        {
            if (line.StartsWith('#'))
                continue;
            var fields = line.Split('\t');
            if (header is null)
                header = fields;
            else
                rows.Add(Row(name => fields[Array.IndexOf(header, name)]));
        }

        return rows;
    }

    private static PublishedSeries Row(Func<string, string> field)
    {
        var hatch = HatchWeight.Of(Number("hatchGrams"), Number("peakGrams")!.Value);
        var logistic = CurveOf("logistic", GrowthModel.Logistic);
        var gompertz = CurveOf("gompertz", GrowthModel.Gompertz);
        return new PublishedSeries(
            field("species"), field("english"), field("family"), field("series"), (int)Number("points")!.Value, Number("hatchGrams"),
            Number("peakGrams")!.Value, Number("peakAge")!.Value, Number("recessionPercent") / 100, Number("recessionAge"), Number("scatterPercent") / 100,
            logistic, gompertz, field("better") switch { "logistic" => logistic, "gompertz" => gompertz, _ => null }, field("source"));

        double? Number(string name) => field(name) is { Length: > 0 } text ? double.Parse(text, CultureInfo.InvariantCulture) : null;

        PublishedCurve? CurveOf(string name, GrowthModel model) => Number(name + "A") is { } a
            ? new(model, [a, Number(name + "K")!.Value, Number(name + "Ti")!.Value], Number(name + "Ase") ?? double.NaN, Number(name + "Kse") ?? double.NaN, hatch)
            : null;
    }
}
