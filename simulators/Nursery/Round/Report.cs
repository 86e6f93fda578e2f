using System.Globalization;
using CaptureAgent.Simulators.Nursery.Watching;

namespace CaptureAgent.Simulators.Nursery.Round;

/// <summary>The table at the end, and what was missing.</summary>
internal static class Report
{
    /// <summary>Prints it; true where everything came as it had to.</summary>
    /// <param name="narration">Where to.</param>
    /// <param name="outcomes">In the order of the round.</param>
    /// <param name="planned">Steps that the whole round has.</param>
    /// <param name="ending">What was wrong with the agent's end; null where nothing was.</param>
    public static bool Print(Narration narration, IReadOnlyList<Outcome> outcomes, int planned, string? ending)
    {
        narration.Plain("");
        narration.Plain($"{"chick",-9}{"species",-24}{"age",6}{"weight",10}{"gain",9}  verdict");
        foreach (var (_, chick, answer, _) in outcomes)
        {
            if (chick is null || answer is null)
                continue;
            var verdict = answer.IsAccepted ? "accepted" : $"rejected: {string.Join(", ", answer.Reasons)}";
            var gain = answer.IsAccepted && answer.Grams is { } grams ? Invariant($"{chick.GainPercent((double)grams):+0.0;-0.0} %") : "";
            var weight = answer.Grams is { } shown ? Invariant($"{shown:F1} g") : "unknown";
            narration.Plain(Invariant($"{answer.Chick ?? "(none)",-9}{chick.Species.Name,-24}{chick.AgeDays,4} d{weight,10}{gain,9}  {verdict}"));
        }

        narration.Plain("");
        List<string> missing = [.. outcomes.Where(outcome => outcome.Problem is not null).Select(outcome => $"{outcome.Chick?.Code ?? "station"}, {outcome.Title}: {outcome.Problem}")];
        if (outcomes.Count < planned)
            missing.Add($"the round was cut short: {outcomes.Count} of {planned} steps done");
        if (ending is not null)
            missing.Add(ending);
        narration.Plain(missing.Count == 0
            ? Invariant($"Complete: {outcomes.Count} steps in {narration.Seconds:F0} s, every verdict as it had to be.")
            : "Not as it had to be:");
        foreach (var one in missing)
            narration.Plain($"- {one}");
        narration.Plain("Weights are no diagnosis: a chick that loses weight or whose crop does not empty goes to an avian veterinarian.");
        return missing.Count == 0;
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
