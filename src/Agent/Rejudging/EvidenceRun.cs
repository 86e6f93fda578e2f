using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Rejudging;

/// <summary>What a settler makes of a placing.</summary>
/// <param name="State">At the reading that was judged.</param>
/// <param name="Weight">The best value there, less the tare.</param>
/// <param name="Stepped">By the end of the readings.</param>
internal readonly record struct RunResult(SettleState State, Measured Weight, bool Stepped);

/// <summary>Lets a settler weigh a stored placing again: the same readings, gaps and knowledge at the same moments as on that day.</summary>
internal static class EvidenceRun
{
    /// <summary>Of a moment: readings are no closer to each other.</summary>
    private const double Same = 1e-5;

    /// <returns>
    /// The first moment at which the weight had settled with the chick's code known; else, if a lift followed, the surest weight that will do;
    /// else the reading that was judged on that day, which is the last unless a lift followed.
    /// </returns>
    public static RunResult Of(RecordedPlacing recorded, ISettler settler)
    {
        var placing = recorded.Placing;
        if (placing is { IsFinished: true, Samples: [.., var finished] })
            return new RunResult(SettleState.Settled, Weight(recorded, (double)finished.Grams - placing.Zero, 0, 0, finished.Seconds), false);
        var judgedSeconds = placing.JudgedSeconds ?? double.PositiveInfinity;
        var coded = placing.CodedSeconds ?? (placing.JudgedSeconds is null ? double.NegativeInfinity : double.PositiveInfinity);
        var judged = new RunResult(SettleState.Moving, Weight(recorded, double.NaN, double.NaN, 0, placing.Seconds), false);
        RunResult? settled = null;
        var expected = placing.Expected;
        var gap = 0;
        settler.Begin(placing.Context);
        for (var i = 0; i < placing.Samples.Count; i++)
        {
            var sample = placing.Samples[i];
            for (; gap < placing.Gaps.Count && placing.Gaps[gap] <= i; gap++)
                settler.Gap();
            if (sample.Range == LoadRange.Within && IsOfTheLoad(placing, sample.Seconds))
                settler.Add(sample.Seconds, (double)sample.Grams - placing.Zero);
            if (expected is { } known && sample.Seconds >= known.Seconds - Same)
            {
                settler.Expect(known.Grams, placing.Habit);
                expected = null;
            }

            var now = new RunResult(settler.State, Weight(recorded, settler.Grams, settler.StandardError, settler.Rounding, sample.Seconds), false);
            if (sample.Seconds <= judgedSeconds + Same)
                judged = now;
            if (settled is null && settler.State == SettleState.Settled && sample.Seconds >= coded - Same)
                settled = now;
        }

        // Of a load that was taken undecided what was surest counts, where that will do.
        if (placing.JudgedSeconds is not null && settler.Surest is { } surest && surest.WillDo(placing))
            settled ??= new RunResult(SettleState.Settled, Weight(recorded, surest.Grams, surest.StandardError, surest.Rounding, surest.Seconds), false);
        return (settled ?? judged) with { Stepped = settler.Stepped };
    }

    // A load that was found under way is counted from the reading after that.
    private static bool IsOfTheLoad(Placing placing, double seconds) =>
        placing.HastyTare ? seconds > placing.Seconds + Same : seconds >= placing.Seconds - Same;

    private static Measured Weight(RecordedPlacing recorded, double grams, double standardError, double rounding, double seconds) =>
        new(grams + (recorded.Placing.Zero - (recorded.Placing.Tare?.Grams ?? recorded.Placing.Zero)), standardError, recorded.Placing.Tare, recorded.Division)
        {
            Rounding = rounding,
            Drift = recorded.Placing.DriftUntil(seconds),
        };
}
