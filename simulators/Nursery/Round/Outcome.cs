using System.Globalization;
using CaptureAgent.Simulators.Nursery.Flock;
using CaptureAgent.Simulators.Nursery.Watching;

namespace CaptureAgent.Simulators.Nursery.Round;

/// <summary>What one step of the round had to bring and what it brought.</summary>
/// <param name="Title">The step.</param>
/// <param name="Chick">Null where it is about no chick.</param>
/// <param name="Answer">The weighing; null when none came.</param>
/// <param name="Problem">Null where all came as it had to.</param>
internal sealed record Outcome(string Title, NurseryChick? Chick, AgentEvent? Answer, string? Problem)
{
    /// <summary>An accepted weight within the greater of one division and 0.3 % of the truth.</summary>
    public static Outcome Accepted(string title, NurseryChick chick, AgentEvent? answer, double trueGrams, decimal division)
    {
        var band = Math.Max((double)division, 0.003 * trueGrams);
        var problem = answer switch
        {
            null => "no weighing came",
            { IsAccepted: false } => $"was rejected ({string.Join(", ", answer.Reasons)}) and had to be accepted",
            { Grams: null } => "was accepted without a weight",
            { Grams: { } grams } when Math.Abs((double)grams - trueGrams) > band =>
                string.Create(CultureInfo.InvariantCulture, $"was accepted with {grams:F1} g; the truth is {trueGrams:F1} g within {band:F1} g"),
            _ => null,
        };
        return new(title, chick, answer, problem);
    }

    /// <summary>A rejection for exactly these reasons, with a remedy.</summary>
    public static Outcome Rejected(string title, NurseryChick chick, AgentEvent? answer, params string[] reasons)
    {
        var problem = answer switch
        {
            null => "no weighing came",
            { IsAccepted: true } => $"was accepted and had to be rejected ({string.Join(", ", reasons)})",
            _ when !answer.Reasons.ToHashSet().SetEquals(reasons) => $"was rejected for {string.Join(", ", answer.Reasons)}; expected {string.Join(", ", reasons)}",
            _ when string.IsNullOrWhiteSpace(answer.Text("remedy")) => "was rejected without a remedy",
            _ => null,
        };
        return new(title, chick, answer, problem);
    }

    /// <summary>A tare within a division and what the scale may err.</summary>
    public static Outcome Tared(string title, AgentEvent? tare, double trueGrams, decimal division)
    {
        var problem = tare?.Grams switch
        {
            null => "no tare came",
            { } grams when Math.Abs((double)grams - trueGrams) > 1.5 * (double)division =>
                string.Create(CultureInfo.InvariantCulture, $"the tare is {grams:F1} g and had to be {trueGrams:F1} g"),
            _ => null,
        };
        return new(title, null, null, problem);
    }
}
