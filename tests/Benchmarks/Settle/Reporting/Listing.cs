using System.Globalization;
using CaptureAgent.Simulators.Physics.Placings;

namespace CaptureAgent.Benchmarks.Settle.Reporting;

/// <summary>What one needs to find out why a placing went wrong.</summary>
internal static class Listing
{
    /// <summary>The station's wrong and missed ones, one line each.</summary>
    public static void WrongAndMissed(IEnumerable<Trial> trials)
    {
        foreach (var trial in trials)
        {
            var answer = trial.Answers[Methods.Station];
            if (answer is { } given && trial.IsWrong(given))
                Console.WriteLine($"wrong  {Describe(trial)}");
            else if (answer is null && trial.Truth.MustRecord)
                Console.WriteLine($"missed {Describe(trial)}");
        }
    }

    /// <summary>The placing, then every reading: when it was taken, when it arrived, what it showed.</summary>
    public static void Dump(Trial trial)
    {
        Console.WriteLine(Describe(trial));
        foreach (var action in trial.Placing.Actions.OrderBy(action => action.At))
            Console.WriteLine(action);
        foreach (var (arrivesAt, sample) in trial.Placing.Readings())
        {
            var marks = $"{sample.Range switch { Simulators.Physics.Scales.ShownRange.Within => "", var range => $" {range}" }}{(sample.Stable == true ? " stable" : "")}{(sample.IsNet ? " net" : "")}";
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{sample.Seconds:0.000} {arrivesAt:0.000} {sample.Value} {sample.Unit}{marks}"));
        }
    }

    private static string Describe(Trial trial)
    {
        PlacingTruth truth = trial.Truth;
        var scale = trial.Placing.Scale;
        var due = truth.MustRecord ? "must" : truth.MayRecord ? "may" : "must not";
        var off = trial.Answers[Methods.Station] is { } answer ? $", off by {(trial.Error(answer) / trial.Band).ToString("0.00", CultureInfo.InvariantCulture)} bands" : "";
        return string.Create(CultureInfo.InvariantCulture, $"""
            #{trial.Number} {trial.Placing.Family} ({due}): truth {truth.NetGrams:0.00} g, band {trial.Band:0.00} g, d {scale.DivisionGrams} g, {scale.SampleHertz} Hz, filter {scale.FilterSeconds:0.00} s × {scale.FilterOrder}, hands off {truth.HandsOffAt:0.0} to {truth.HandsBackAt:0.0} s, code {trial.Placing.CodeAt:0.0} s, expected {trial.Placing.ExpectedGrams:0.0} g; said {trial.Said}{off}; {Sure("oracle", trial.Bound?.Stop)}, {Sure("cautious oracle", trial.Bound?.Cautious)}
            """);
    }

    private static string Sure(string oracle, Answer? stop) => stop is { } answer
        ? string.Create(CultureInfo.InvariantCulture, $"{oracle} {answer.Grams:0.00} g at {answer.At:0.0} s")
        : $"{oracle} never sure";
}
