using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Benchmarks.Settle;
using CaptureAgent.Simulators.Physics.Placings;
using CaptureAgent.Simulators.Physics.Scales;
using Placing = CaptureAgent.Simulators.Physics.Placings.Placing;

namespace CaptureAgent.Benchmarks.Tares;

/// <summary>What became of the tare after one simulated placing that was weighed and lifted.</summary>
/// <param name="Family">The kind of placing.</param>
/// <param name="Told">The station's note; null: it did not compare.</param>
/// <param name="HastySlip">What a comparison with the first still half second after the lift would say; null: there was none.</param>
/// <param name="TruthGrams">What the chick weighs.</param>
/// <param name="BandGrams">Largest error that counts as right.</param>
internal sealed record LiftedPlacing(string Family, WeighingEvent Weighing, TareAfterEvent? Told, bool? HastySlip, double TruthGrams, double BandGrams)
{
    private const double StillSeconds = 0.5;

    /// <summary>Null where no accepted weighing was lifted.</summary>
    public static LiftedPlacing? Play(Placing placing)
    {
        IReadOnlyList<Delivered> readings = [.. placing.Readings()];
        var events = PlayedStation.Events(placing, readings);
        if (events.OfType<WeighingEvent>().LastOrDefault(told => told is { Verdict: "accepted", Grams: not null, TareGrams: not null }) is not { } weighing
            || events.OfType<LiftedEvent>().FirstOrDefault(lifted => lifted.At >= weighing.At) is not { } lift)
            return null;
        return new LiftedPlacing(
            placing.Family, weighing, events.OfType<TareAfterEvent>().LastOrDefault(), Hasty(placing, readings, weighing, PlayedStation.Seconds(lift)),
            placing.Truth.NetGrams, placing.Truth.Band(placing.Scale.DivisionGrams));
    }

    // Baseline: as soon as half a second lies within two divisions, as a tare is taken.
    private static bool? Hasty(Placing placing, IReadOnlyList<Delivered> readings, WeighingEvent weighing, double lifted)
    {
        var division = (double)placing.Scale.DivisionGrams;
        var shown = readings.Select(read => read.Sample).Where(sample => sample is { Range: ShownRange.Within, Unit: DisplayUnit.Gram } && sample.Seconds > lifted)
            .Select(sample => (sample.Seconds, Grams: (double)sample.Value)).ToList();
        for (var first = 0; first < shown.Count; first++)
        {
            var window = shown.Skip(first).TakeWhile(sample => sample.Seconds <= shown[first].Seconds + StillSeconds).Select(sample => sample.Grams).ToList();
            if (shown[^1].Seconds < shown[first].Seconds + StillSeconds)
                return null;
            if (window.Count >= 4 && window.Max() - window.Min() <= 2 * division + 1e-9)
                return Math.Abs(window.Average() - (double)weighing.TareGrams!.Value) > Uncertainty.Band((double)weighing.Grams!.Value, division);
        }

        return null;
    }
}
