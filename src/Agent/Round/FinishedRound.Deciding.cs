using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Weighing;

namespace CaptureAgent.Agent.Round;

// Whose a finished value is, and what becomes of it.
internal sealed partial class FinishedRound
{
    public string? TryName(string code, DateTimeOffset at, List<StationEvent> events)
    {
        if (lifted is { } gone)
        {
            lifted = null;
            Decide(gone.Load, code, at, events);
            return "lifted";
        }

        if (Nameless is not { } here)
            return null;
        Decide(here, code, at, events);
        return "placed";
    }

    // A value that was presumed to be the liner stays on the pan for all that such a scale tells: that it was taken away nobody hears.
    public bool Forsake((string Code, DateTimeOffset At) waited, DateTimeOffset at, List<StationEvent> events) => false;

    public bool TareNow(DateTimeOffset at, List<StationEvent> events)
    {
        if (history.Count == 0)
            return false;
        var newest = history.Last();
        load = null;
        presumedAt = null;
        tare = null;
        SetTare(at, newest.Seconds, (double)newest.Grams, events);
        return true;
    }

    private void Decide(FinishedLoad decided, string code, DateTimeOffset at, List<StationEvent> events)
    {
        decided.Code = code;
        decided.Decided = true;
        var isTareKnown = decided.Under is not { } under || TareIsKnown(decided, under, code, at, events);
        var attempt = new Attempt(device, code, at, decided.Placing);
        var weight = WeightOf(decided);
        if (decided.Placing.Tare is null || !isTareKnown)
            context.Decisions.Refuse(attempt, weight, Reasons.NoTare, events);
        else if (division > BandShare * decided.Net)
            context.Decisions.Refuse(attempt, weight, Reasons.TooCoarse, events);
        else
            context.Decisions.Decide(attempt, weight, events);
    }

    // Whether the load before lies under this one only the chick's own weights can tell: a tub must never be weighed with a chick.
    private bool TareIsKnown(FinishedLoad decided, FinishedLoad under, string code, DateTimeOffset at, List<StationEvent> events)
    {
        var onIt = context.Decisions.FitsHistory(code, decided.Grams - under.Grams, at) == true;
        var alone = context.Decisions.FitsHistory(code, decided.Net, at) == true;
        if (onIt && !alone)
        {
            SetTare(at, decided.Placing.Seconds, under.Grams, events);
            decided.Placing = PlacingOn(tare, decided.Placing.Seconds);
            return true;
        }

        RefuseNameless(under, at, events);
        return alone && !onIt;
    }

    // The first value may be the chick itself, if its code waits, nothing more comes and it fits.
    private void TryPresumed(DateTimeOffset at, List<StationEvent> events)
    {
        if (presumedAt is not { } seen || context.Identity.Waiting is not { } waiting || at < Later(seen, waiting.At) + NothingMoreComes)
            return;
        presumedAt = null;
        var sample = history.Last();
        if (context.Decisions.Fits(waiting.Code, (double)sample.Grams - bare, at) != true)
            return;
        context.Identity.Take();
        tare = new Rest(sample.Seconds, bare, Rounding, Lined: false);
        load = new FinishedLoad(at, (double)sample.Grams, PlacingOn(tare, sample.Seconds));
        events.Add(new PlacedEvent(at, device, waiting.Code));
        Decide(load, waiting.Code, at, events);
    }

    private void Check(FinishedLoad checking, DateTimeOffset at, List<StationEvent> events)
    {
        context.Cards.CheckAt = null;
        checking.Decided = true;
        if (checking.Under is { } under)
            RefuseNameless(under, at, events);
        if (checking.Placing.Tare is null)
            events.Add(new AlertEvent(at, "check-dropped", null, device, "The scale was not checked: what lay on the pan before is not known. Take everything off, wait for the scale, then scan the check card again."));
        else if (checking.Net / (double)mass!.Grams is < Round.LikeTheMass or > 1 / Round.LikeTheMass)
            events.Add(new AlertEvent(at, "check-dropped", null, device, FormattableString.Invariant($"The scale was not checked. What lies there weighs {checking.Net:0.0##} g, and the check mass {mass.Grams:0.###} g: put the mass on, nothing else, then scan the check card again.")));
        else
            context.Decisions.Check(new Attempt(device, null, at, checking.Placing), WeightOf(checking), mass, events);
    }

    private void RefuseOverload(string code, DateTimeOffset at, in PanSample sample, List<StationEvent> events)
    {
        var placing = PlacingOn(tare, sample.Seconds);
        placing.Overload = true;
        placing.Add(sample);
        context.Decisions.Refuse(new Attempt(device, code, at, placing), new Measured(double.NaN, double.NaN, tare, division), Reasons.Overload, events);
    }

    // Nobody came with a code: on a liner it was an animal, on a bare pan it may have been anything.
    private void Drop(FinishedLoad forgotten, DateTimeOffset at, List<StationEvent> events)
    {
        forgotten.Decided = true;
        if (forgotten.Under is { } under)
            RefuseNameless(under, at, events);
        RefuseNameless(forgotten, at, events);
    }

    private void RefuseNameless(FinishedLoad gone, DateTimeOffset at, List<StationEvent> events)
    {
        if (gone.Placing.Tare is null or { Lined: true })
            context.Decisions.Refuse(new Attempt(device, null, at, gone.Placing), WeightOf(gone), Reasons.NoCode, events);
    }

    private Measured WeightOf(FinishedLoad of) => new(of.Net, Rounding, of.Placing.Tare, division) { Rounding = Rounding };
}
