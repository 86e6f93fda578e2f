using ScottPlot;

namespace CaptureAgent.Agent.Growth.Charts;

/// <summary>What keepers saw, upright at its day: one column a day, at the end of the chart that the weights are farther from.</summary>
internal static class ObservationMarks
{
    /// <summary>Of the chart's height, from its end.</summary>
    private const double Inset = 0.02;

    /// <summary>Of the chart's height, by one letter.</summary>
    private const double Letter = 0.016;

    /// <returns>Where the words lie, as points along them.</returns>
    public static List<Coordinates> Add(Plot plot, GrowthView view, ChickWindow window)
    {
        List<Coordinates> words = [];
        foreach (var day in view.Observations.GroupBy(observation => observation.Day))
        {
            if (view.AgeOn(day.Key) is not { } age)
                continue;
            var line = plot.Add.VerticalLine(age, 1, ChartColours.Faint);
            line.LinePattern = LinePattern.Dotted;
            var said = string.Join(", ", day.Select(observation => observation.Words).Distinct());
            var atFoot = view.Weights.MinBy(weight => Math.Abs(weight.AgeDays - age)) is not { } near || near.Grams > window.Grams / 2;
            var text = plot.Add.Text(said, age, window.Grams * (atFoot ? Inset : 1 - Inset));
            (text.LabelRotation, text.LabelFontSize, text.LabelFontColor) = (-90, 11, ChartColours.Ink);
            text.LabelAlignment = atFoot ? Alignment.LowerLeft : Alignment.LowerRight;
            words.AddRange(Enumerable.Range(0, said.Length).Select(i => new Coordinates(age, window.Grams * (atFoot ? i * Letter : 1 - i * Letter))));
        }

        return words;
    }
}
