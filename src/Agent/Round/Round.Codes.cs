using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Weighing;

namespace CaptureAgent.Agent.Round;

// Where a chick's code goes: to the load just lifted, the load on the pan, or the next one.
internal sealed partial class Round
{
    public string? TryName(string code, DateTimeOffset at, List<StationEvent> events)
    {
        if (lifted is { } gone && BelongsTo(gone, code, at))
        {
            lifted = null;
            DecideLifted(gone, code, at, events);
            return "lifted";
        }

        if (Undecided is not { } here)
            return TryNameGone(code, at, events);
        if (here.Code is null)
        {
            here.Name(code, at, at);
            ExpectWeight(at);
            TryDecide(here, at, pan.LastSeconds, events);
            return "placed";
        }

        if (here.Code == code)
            return "placed";
        here.Second = (code, at);
        here.SecondJudgedAt = at + ScannerAhead;
        return "second";
    }

    public bool TareNow(DateTimeOffset at, List<StationEvent> events)
    {
        var code = Undecided?.Code;
        var codedAt = Undecided?.CodedAt ?? at;
        if (!pan.TareNow())
            return false;
        if (Checking is { } checking)
            DropCheck(checking, at, "What lay there is the tare now: take the mass off", events);
        Retare(at, code, codedAt, events);
        return true;
    }

    // What had been taken for a load is under the next one.
    private void Retare(DateTimeOffset at, string? code, DateTimeOffset codedAt, List<StationEvent> events)
    {
        load = null;
        lastLift = null;
        if (code is not null)
            context.Identity.Wait(code, codedAt);
        events.Add(new TareEvent(at, device, Milligram.Nearest(pan.Rest!.Grams), Milligram.Nearest(pan.Rest.Uncertainty)));
    }

    private bool TakeThing(Load coded, DateTimeOffset at, List<StationEvent> events)
    {
        if (coded.Second is not null || !pan.ThingLies)
            return false;
        pan.ThingIsLiner();
        Retare(at, coded.Code, coded.ScannedAt, events);
        return true;
    }

    // What is next to nothing beside the chick fell onto the liner, or was a fold of it.
    private bool BelongsTo(LiftedLoad gone, string code, DateTimeOffset at) =>
        !gone.IsLongGone(at, LateCode) && !(context.Decisions.Expected(code, at) is { } chick && (double.IsNaN(gone.Before.Grams) ? Pan.IsLittle(gone.Placing.Peak, chick) : Pan.IsThing(gone.Before.Grams, chick)))
        && IsWeighed(gone, code, at);

    private bool IsWeighed(LiftedLoad gone, string code, DateTimeOffset at) =>
        gone.Placing.Animal || gone.Before.State == SettleState.Settled && context.Decisions.FitsHistory(code, gone.Before.Grams, at) == true;

    private void DecideLifted(LiftedLoad gone, string code, DateTimeOffset at, List<StationEvent> events)
    {
        var attempt = new Attempt(device, code, at, gone.Placing);
        var weight = WeightOf(gone.Placing, gone.Before);
        WeighingEvent weighing;
        if (Hopeless(gone.Placing, double.MaxValue) is { } reason)
            weighing = context.Decisions.Refuse(attempt, weight, reason, events);
        else if (gone.Before.State == SettleState.Settled)
            weighing = context.Decisions.Decide(attempt, weight, events);
        else
            weighing = context.Decisions.Refuse(attempt, weight, LiftReason(gone.Placing, gone.Before.State, gone.Stepped), events);
        DecidedAfterLift(gone.Placing, weighing, at, events);
    }
}
