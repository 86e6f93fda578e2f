using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Weighing;

namespace CaptureAgent.Agent.Round;

/// <summary>What is told of the tare after a weighing, beside the one before it.</summary>
internal static class TareNote
{
    /// <summary>Notes the tare after the lift; says so where a weight of the growth record may be off by the change.</summary>
    public static void Tell(WeighingEvent weighing, TareComparison tares, double division, DateTimeOffset at, List<StationEvent> events)
    {
        if (weighing.Grams is not { } grams)
            return;
        var slip = tares.IsSlip((double)grams, division);
        var change = Milligram.Nearest(tares.ChangeGrams);
        events.Add(new TareAfterEvent(
            at, weighing.Device, weighing.Chick, Milligram.Nearest(tares.Before.Grams), Milligram.Nearest(tares.After.Grams), change,
            Milligram.Nearest(tares.UncertaintyGrams), slip, tares.WithoutDrift((double)grams, division) is { } net ? Milligram.Nearest(net) : null)
        {
            Id = NameBasedId.Of($"tare-after/{weighing.Id}"),
            WeighingId = weighing.Id,
        });
        if (slip && weighing is { Verdict: "accepted", Chick: { } code })
            events.Add(new AlertEvent(at, "look", code, weighing.Device, SlipText(code, grams, tares, change)));
    }

    private static string SlipText(string code, decimal grams, TareComparison tares, decimal change)
    {
        var found = FormattableString.Invariant(
            $"{code}: what lies on the pan weighs {Math.Abs(change):0.0##} g {(change > 0 ? "more" : "less")} than before it ({tares.After.Grams:0.0##} g, before {tares.Before.Grams:0.0##} g). ");
        var cause = change > 0
            ? "If that is a dropping, it came from the chick, and the weight counts it in: wipe it off or change the liner. If not, the liner was moved or something fell on it, and "
            : "The liner was moved or touched something, or what lay on it went with the chick, and ";
        return found + cause + FormattableString.Invariant(
            $"the weight of {grams:0.0} g may be off by as much: lay the liner flat and free, scan the re-weigh card, then {code}, before it is fed. The next chick is weighed from the new tare.");
    }
}
