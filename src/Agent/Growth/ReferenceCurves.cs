using System.Globalization;

namespace CaptureAgent.Agent.Growth;

/// <summary>Published growth by species, for a chick that has no weights of its own yet.</summary>
/// <remarks>Curves and the paper behind each are in reference-curves.tsv. A species is found by its scientific or English name, letter case ignored.</remarks>
internal static class ReferenceCurves
{
    /// <summary>A first weight is only judged within this factor, either way.</summary>
    private const double Wide = 2;

    private static readonly Lazy<ILookup<string, Curve>> Curves = new(Load);

    /// <summary>The weights a chick of the species can have at an age; null where the species is not among the curves.</summary>
    public static PlausibleRange? At(string? species, int ageDays)
    {
        if (species is null || ageDays < 0)
            return null;
        double low = double.MaxValue, high = 0, product = 1;
        var n = 0;
        foreach (var curve in Curves.Value[species.Trim()])
        {
            foreach (var grams in curve.GramsAt(ageDays))
            {
                low = Math.Min(low, grams);
                high = Math.Max(high, grams);
                product *= grams;
                n++;
            }
        }

        return n == 0 ? null : new PlausibleRange(low / Wide, Math.Pow(product, 1.0 / n), high * Wide);
    }

    /// <summary>Weight in grams, growth rate d ln(weight)/dt and final weight of every published curve of the species at an age; none where it is not listed.</summary>
    public static IEnumerable<(double Grams, double Rate, double FinalGrams)> GrowthAt(string species, double ageDays) =>
        Curves.Value[species.Trim()].SelectMany(curve => curve.GrowthAt(ageDays));

    private static ILookup<string, Curve> Load()
    {
        using var stream = typeof(ReferenceCurves).Assembly.GetManifestResourceStream("reference-curves.tsv")!;
        using var reader = new StreamReader(stream);
        List<(string Name, Curve Curve)> named = [];
        while (reader.ReadLine() is { } line)
        {
            if (line.StartsWith('#') || line.StartsWith("species", StringComparison.Ordinal))
                continue;
            var fields = line.Split('\t');
            var curve = new Curve([.. fields[2..8].Select(Number)]);
            named.Add((fields[0], curve));
            named.Add((fields[1], curve));
        }

        return named.ToLookup(entry => entry.Name, entry => entry.Curve, StringComparer.OrdinalIgnoreCase);
    }

    private static double Number(string field) =>
        field.Length == 0 ? double.NaN : double.Parse(field, CultureInfo.InvariantCulture);

    private sealed class Curve(double[] parameters)
    {
        public IEnumerable<double> GramsAt(int ageDays) => GrowthAt(ageDays).Select(at => at.Grams);

        public IEnumerable<(double Grams, double Rate, double FinalGrams)> GrowthAt(double ageDays)
        {
            var logistic = parameters[0] / (1 + Math.Exp(-parameters[1] * (ageDays - parameters[2])));
            var gompertz = Math.Exp(-parameters[4] * (ageDays - parameters[5]));
            if (!double.IsNaN(logistic))
                yield return (logistic, parameters[1] * (1 - logistic / parameters[0]), parameters[0]);
            if (!double.IsNaN(gompertz))
                yield return (parameters[3] * Math.Exp(-gompertz), parameters[4] * gompertz, parameters[3]);
        }
    }
}
