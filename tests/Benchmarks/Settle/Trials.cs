using CaptureAgent.Agent.Events;
using CaptureAgent.Benchmarks.Settle.Baselines;
using CaptureAgent.Benchmarks.Settle.Bound;
using CaptureAgent.Simulators.Physics.Placings;

namespace CaptureAgent.Benchmarks.Settle;

/// <summary>Plays placings to everybody, on all processors. The same seed and count give the same trials.</summary>
internal static class Trials
{
    /// <param name="count">How many are drawn.</param>
    /// <param name="seed">Of the draw.</param>
    /// <param name="family">Only families whose name holds this; null: all. Numbers stay those of the whole draw.</param>
    public static IReadOnlyList<(int Number, Placing Placing)> Draw(int count, ulong seed, string? family) =>
    [
        .. PlacingFamilies.Draw(seed, count)
            .Select((placing, i) => (Number: i + 1, Placing: placing))
            .Where(drawn => family is null || drawn.Placing.Family.Contains(family, StringComparison.OrdinalIgnoreCase)),
    ];

    public static Trial[] Run(IReadOnlyList<(int Number, Placing Placing)> drawn)
    {
        var trials = new Trial[drawn.Count];
        Parallel.For(0, drawn.Count, i => trials[i] = Run(drawn[i].Number, drawn[i].Placing));
        return trials;
    }

    private static Trial Run(int number, Placing placing)
    {
        IReadOnlyList<Delivered> readings = [.. placing.Readings()];
        var (weighings, tares) = PlayedStation.Play(placing, readings);
        var station = Worst(placing, weighings);
        var lowered = placing.LoweredAt();
        IReadOnlyList<Answer?> answers = [station, .. Methods.Baselines.Select(baseline => BaselineRun.Play(baseline.For(placing), placing, lowered, readings))];
        var truth = placing.Truth;
        var bound = (truth.MustRecord || truth.MayRecord) && !double.IsNaN(truth.HandsOffAt)
            ? new Oracle(placing, lowered, readings).Run([.. answers.Select(answer => answer?.At)])
            : null;
        return new(number, placing, answers, PlayedStation.Describe(weighings, tares), bound);
    }

    // A placing is recorded once; should a station say more, its worst word counts.
    private static Answer? Worst(Placing placing, IReadOnlyList<WeighingEvent> weighings) => weighings
        .Where(told => told.Verdict == "accepted")
        .Select(told => (Answer?)new Answer(PlayedStation.Seconds(told), (double)told.Grams!, (double)told.UncertaintyGrams!))
        .MaxBy(answer => Math.Abs(answer!.Value.Grams - placing.Truth.NetGrams));
}
