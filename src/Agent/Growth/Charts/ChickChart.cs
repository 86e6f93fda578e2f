using CaptureAgent.Agent.Growth.Fitting;
using ScottPlot;

namespace CaptureAgent.Agent.Growth.Charts;

/// <summary>A chick's weights against age, with the reference behind and the gain below.</summary>
internal static class ChickChart
{
    public static Chart Of(GrowthView view)
    {
        var chart = new Chart([7, 3]);
        var window = ChickWindow.Of(view);
        AddWeights(chart[0], view, window);
        AddGain(chart[1], view, window);
        foreach (var plot in new[] { chart[0], chart[1] })
        {
            plot.Axes.SetLimitsX(window.Rectangle.Left, window.Rectangle.Right);
            // Ages are whole days, and a week is wide enough for halves to be marked.
            plot.Axes.Bottom.TickGenerator = new ScottPlot.TickGenerators.NumericAutomatic { IntegerTicksOnly = true, TickDensity = 0.6 };
        }

        chart[1].XLabel(Chart.Wrapped(Notes(view)), 11);
        chart[1].Axes.Bottom.Label.Bold = false;
        return chart;
    }

    /// <summary>What a reader must know of the chart.</summary>
    public static IEnumerable<string> Notes(GrowthView view)
    {
        yield return view.HasAge ? "day of age (the day of hatching is 0)" : "days since the first weight: no hatch date is registered, and so no reference can be shown";
        if (view.Reference is { } reference)
            yield return $"Band: {reference.Source}.";
        else if (view.HasAge)
            yield return "No band: no reference is known for this species.";
        if (view.BestFit is { } fit)
            yield return $"Curve fitted to this chick: {fit.Model.Name}.";
        yield return "Compares weights, diagnoses nothing: what gives you pause goes to an avian veterinarian.";
    }

    private static void AddWeights(Plot plot, GrowthView view, ChickWindow window)
    {
        plot.Title($"{view.Chick.Code}   {view.Chick.Species ?? "species not registered"}", 16);
        plot.YLabel("grams", 12);
        if (view.Reference is { } reference)
            ReferenceBand.Add(plot, reference, window.FirstAge, window.LastAge);
        if (view.BestFit is { } fit)
            AddFit(plot, fit, view);
        AddForecast(plot, view);
        var line = plot.Add.Scatter(
            view.Weights.Select(weight => (double)weight.AgeDays).ToArray(), view.Weights.Select(weight => weight.Grams).ToArray(), ChartColours.Ink);
        line.MarkerSize = 5;
        line.LineWidth = 1;
        line.LegendText = "morning weight";
        var findings = AddFindings(plot, view);
        var notes = ObservationMarks.Add(plot, view, window);
        plot.Axes.SetLimitsY(0, window.Grams);
        LegendPlace.Show(plot, window.Rectangle, [.. Line(view), .. Forecast(view), .. findings, .. notes]);
    }

    private static void AddFit(Plot plot, GrowthFit fit, GrowthView view)
    {
        var (first, last) = (view.Weights[0].AgeDays, view.Weights[fit.Weights + fit.LeftOut.Count - 1].AgeDays);
        double[] ages = [.. Enumerable.Range(0, 2 * (last - first) + 1).Select(half => first + half / 2.0)];
        var line = plot.Add.ScatterLine(ages, [.. ages.Select(fit.Grams)], ChartColours.Fit);
        line.LinePattern = LinePattern.DenselyDashed;
        line.LineWidth = 1.2f;
        line.LegendText = $"fitted: {fit.Model.Name}";
        if (fit.LeftOut.Count == 0)
            return;
        var leftOut = plot.Add.Markers(
            fit.LeftOut.Select(i => new Coordinates(view.Weights[i].AgeDays, view.Weights[i].Grams)).ToArray(), MarkerShape.OpenCircle, 12, ChartColours.Faint);
        leftOut.LegendText = "cannot belong to the curve";
    }

    private static void AddForecast(Plot plot, GrowthView view)
    {
        if (view.Next is not { AgeDays: { } age, ExpectedGrams: { } expected, LowGrams: { } low, HighGrams: { } high })
            return;
        var range = plot.Add.Line(age, low, age, high);
        (range.Color, range.LineWidth, range.LegendText) = (ChartColours.Fit, 3, "expected next, 95 %");
        plot.Add.Marker(age, expected, MarkerShape.HorizontalBar, 10, ChartColours.Fit);
    }

    private static List<Coordinates> AddFindings(Plot plot, GrowthView view)
    {
        List<Coordinates> all = [];
        foreach (var severity in view.Findings.GroupBy(finding => finding.Severity))
        {
            var (shape, colour, size) = ChartColours.Finding(severity.Key);
            var places = severity
                .Select(finding => (finding, Weight: view.Weights.LastOrDefault(weight => weight.Day <= finding.Day)))
                .Where(marked => marked.Weight is not null)
                .Select(marked => new Coordinates(marked.Weight!.AgeDays + marked.finding.Day.DayNumber - marked.Weight.Day.DayNumber, marked.finding.Grams ?? marked.Weight.Grams))
                .ToArray();
            if (places.Length > 0)
                plot.Add.Markers(places, shape, size, colour).LegendText = severity.Key;
            all.AddRange(places);
        }

        return all;
    }

    // The weights with the line between them.
    private static IEnumerable<Coordinates> Line(GrowthView view)
    {
        const int Parts = 8;
        for (var i = 0; i < view.Weights.Count; i++)
        {
            var (from, to) = (view.Weights[Math.Max(0, i - 1)], view.Weights[i]);
            for (var part = 1; part <= Parts; part++)
                yield return new(from.AgeDays + (to.AgeDays - from.AgeDays) * part / (double)Parts, from.Grams + (to.Grams - from.Grams) * part / Parts);
        }
    }

    private static IEnumerable<Coordinates> Forecast(GrowthView view) =>
        view.Next is { AgeDays: { } age, LowGrams: { } low, HighGrams: { } high } ? [new(age, low), new(age, (low + high) / 2), new(age, high)] : [];

    private static void AddGain(Plot plot, GrowthView view, ChickWindow window)
    {
        plot.YLabel("gain, % a day", 12);
        var width = Math.Min(0.7, window.Rectangle.Width / 35);
        foreach (var weight in view.Weights)
        {
            if (weight.RatePercent is not { } rate)
                continue;
            var bar = plot.Add.Bar(weight.AgeDays, rate);
            bar.Color = rate < 0 ? ChartColours.Loss : ChartColours.Faint;
            bar.Bars[0].Size = width;
            bar.Bars[0].LineWidth = 0;
        }

        var rates = view.Weights.Select(weight => weight.RatePercent ?? 0).ToList();
        if (view.Reference is { } reference)
        {
            double[] ages = [.. ReferenceBand.Days(reference, window.FirstAge, window.LastAge).Where(age => age > 0)];
            var expected = plot.Add.ScatterLine(ages, [.. ages.Select(age => 100 * reference.Rate(age))], ChartColours.Median);
            expected.LineWidth = 1.5f;
        }

        var zero = plot.Add.HorizontalLine(0, 1, ChartColours.Ink);
        zero.LinePattern = LinePattern.Solid;
        plot.Axes.SetLimitsY(Math.Min(-3, rates.Count == 0 ? 0 : Math.Max(-25, rates.Min() - 1)), Math.Max(10, rates.Count == 0 ? 0 : Math.Min(40, rates.Max() + 1)));
    }
}
