using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Growth.Fitting;
using CaptureAgent.Agent.Growth.References;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Commands;

/// <summary>What <c>growth</c> says: weights with gain and centile, fitted curves or why there are none yet, the reference's source.</summary>
internal static class GrowthText
{
    private const string Caution = "A comparison of weights, not a diagnosis: what gives you pause goes to an avian veterinarian.";

    public static string Of(GrowthView view)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"{view.Chick.Code}, {view.Chick.Species ?? "species not registered"}, ");
        text.Append(view.Chick.Hatched is { } hatched ? $"hatched {Shown.Day(hatched)}" : "no hatch date: ages are days since the first weight").Append("\n\n");
        text.Append(Weights(view)).Append('\n');
        if (view.Course is { Points: [.., var next] } course)
        {
            text.Append(CultureInfo.InvariantCulture, $"Stage: {course.Stage.ToString().ToLowerInvariant()}.");
            if (next is { Grams: null, ExpectedGrams: { } expected, LowGrams: { } low, HighGrams: { } high })
                text.Append(CultureInfo.InvariantCulture, $" Expected on {Shown.Day(next.Day)}: {Grams(expected)} g, 95 % within {Grams(low)}-{Grams(high)} g.");
            text.Append('\n');
        }

        foreach (var finding in view.Findings)
            text.Append(CultureInfo.InvariantCulture, $"{Shown.Day(finding.Day)} {finding.Severity}: {finding.Text}\n");
        foreach (var day in view.Observations.GroupBy(seen => seen.Day))
            text.Append(CultureInfo.InvariantCulture, $"{Shown.Day(day.Key)} seen: {string.Join(", ", day.Select(seen => seen.Words).Distinct())}\n");
        text.Append(Fits(view)).Append('\n');
        text.Append(view.Reference is { } reference ? $"Centiles: {reference.Source}.\n" : "Centiles: no reference is known.\n");
        return text.Append(Caution).Append('\n').ToString();
    }

    public static string Of(ReferenceCurve reference)
    {
        var text = $"{reference.Species}: {reference.Source}.\n\n{Table(reference, _ => true)}\n";
        if (reference.Elsewhere is { } elsewhere && (elsewhere.FirstAge < reference.FirstAge || elsewhere.LastAge > reference.LastAge))
            text += $"Of other days: {elsewhere.Source}.\n\n{Table(elsewhere, age => reference.At(age) is null)}\n";
        return $"{text}{Caution}\n";
    }

    private static TextTable Table(ReferenceCurve reference, Func<int, bool> isTold)
    {
        var table = new TextTable(">day", ">3rd", ">25th", ">median", ">75th", ">97th", ">gain a day");
        var days = Enumerable.Range(reference.FirstAge, reference.LastAge - reference.FirstAge + 1);
        foreach (var age in days.Where(day => day <= 14 || day % 7 == 0 || day == reference.LastAge).Where(isTold))
        {
            var at = reference.At(age)!.Value;
            table.Add(
                age.ToString(CultureInfo.InvariantCulture), Grams(at.Value(-1.880794)), Grams(at.Value(-0.674490)), Grams(at.M), Grams(at.Value(0.674490)), Grams(at.Value(1.880794)),
                Signed(100 * reference.Rate(age)) + " %");
        }

        return table;
    }

    public static string UnknownSpecies(string species, IEnumerable<Chick> chicks)
    {
        var known = chicks.Select(chick => chick.Species).OfType<string>().Concat(PublishedSeries.All.SelectMany(series => new[] { series.Species, series.English }));
        var near = NearestWord.Of(species, known.Distinct(StringComparer.OrdinalIgnoreCase), 3);
        return $"no curve is known of '{species}': it is not among the published species, and no chick of it has a weight and a hatch date. "
            + (near.Count > 0 ? $"Did you mean {string.Join(" or ", near)}?" : "`capture-agent chicks` shows the species of the register.");
    }

    private static string Weights(GrowthView view)
    {
        var expected = view.Course?.Points.ToLookup(point => point.Day);
        var table = new TextTable("date", ">age", ">grams", ">gain", ">a day", ">centile", ">z", ">expected");
        foreach (var weight in view.Weights)
        {
            var point = expected?[weight.Day].FirstOrDefault();
            table.Add(
                Shown.Day(weight.Day), weight.AgeDays.ToString(CultureInfo.InvariantCulture), Shown.Grams((long)Math.Round(weight.Grams * 1000)),
                weight.GainPercent is { } gain ? Signed(gain) + " %" : null, weight.RatePercent is { } rate ? Signed(rate) + " %" : null,
                weight.Centile is { } centile ? Centile(centile) : null, weight.Z is { } z ? z.ToString("+0.00;-0.00;0.00", CultureInfo.InvariantCulture) : null,
                point is { LowGrams: { } low, HighGrams: { } high } ? $"{Grams(low)}-{Grams(high)}" : null);
        }

        return table.ToString();
    }

    private static string Fits(GrowthView view)
    {
        if (view.Fits.Count == 0)
            return $"Fitted curves: not yet identifiable, {(view.Weights.Count == 1 ? "1 weight is" : $"{view.Weights.Count} weights are")} too few.\n";
        var table = new TextTable("fitted curve", ">final g", ">±", ">K a day", ">±", ">inflection d", ">10-90 % d", ">scatter g", "");
        foreach (var fit in view.Fits)
        {
            if (fit.IsTold)
                table.Add(
                    fit.Model.Name, Grams(fit.Asymptote), Grams(fit.StandardError(0)), Number(fit.Parameters[1], "0.0000"), Number(fit.StandardError(1), "0.0000"),
                    Number(fit.Parameters[2], "0.0"), Number(fit.Model.Days10To90(fit.Parameters), "0.0"), Number(fit.ResidualSd, "0.00"), fit == view.BestFit ? "fits best" : "");
            else
                table.Add(fit.Model.Name, null, null, null, null, null, null, null, $"not yet identifiable: {fit.WhyNotTold}");
        }

        var text = table.ToString();
        foreach (var place in view.Fits.SelectMany(fit => fit.LeftOut).Distinct().Order())
            text += $"{Shown.Day(view.Weights[place].Day)}, {Grams(view.Weights[place].Grams)} g, cannot belong to the curve and was left out of a fit: was it this chick, and read right?\n";
        return text;
    }

    private static string Centile(double centile) => centile switch
    {
        < 0.5 => "< 1",
        > 99.5 => "> 99",
        _ => Number(centile, "0"),
    };

    private static string Grams(double grams) => Number(grams, "0.0");

    private static string Signed(double value) => value.ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture);

    private static string Number(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
