using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Weighing;

namespace CaptureAgent.Agent.Round;

/// <summary>One pass over the chicks at one scale: who lies on the pan, what it weighs, and what that means. Pure.</summary>
internal sealed partial class Round : IScaleRound
{
    /// <summary>A coded load that has not settled by then is refused while it still lies there.</summary>
    private const double PatienceSeconds = 45;

    /// <summary>A code within this time after an uncoded animal was lifted belongs to it.</summary>
    private static readonly TimeSpan LateCode = TimeSpan.FromSeconds(3);

    /// <summary>The scanner may run ahead of the scale's lines by this much.</summary>
    private static readonly TimeSpan ScannerAhead = TimeSpan.FromSeconds(0.6);

    /// <summary>A load whose scale is not heard again within this time is refused.</summary>
    private static readonly TimeSpan LinkPatience = TimeSpan.FromSeconds(30);

    private readonly string device;
    private readonly Pan pan;
    private readonly RoundContext context;
    private readonly CheckMass? mass;
    private Load? load;
    private LiftedLoad? lifted;
    private DateTimeOffset? linkDownAt;
    private Steady steady, newer, older, nameless;

    public Round(string device, Pan pan, RoundContext context, CheckMass? mass = null)
    {
        this.device = device;
        this.pan = pan;
        this.context = context;
        this.mass = mass;
    }

    /// <summary>The load that lies on the pan and is not decided.</summary>
    private Load? Undecided => load is { Decided: false, IsCheck: false } ? load : null;

    public void OnSample(DateTimeOffset at, in PanSample sample, List<StationEvent> events)
    {
        linkDownAt = null;
        ConsiderLifted(at, sample, events);
        var change = pan.Add(sample);
        if (change.HasFlag(PanChange.Lifted))
            OnLifted(at, events);
        if (!TakePresumedLiner(at, events) && change.HasFlag(PanChange.Tared) && pan.Rest is { } rest)
            events.Add(new TareEvent(at, device, Milligram.Nearest(rest.Grams), Milligram.Nearest(rest.Uncertainty)));
        if (change.HasFlag(PanChange.Placed))
            OnPlaced(at, events);
        if (change.HasFlag(PanChange.Gone))
            OnGone(at, events);
        CompareTares(at, events);
        Remember(sample.Seconds);
        ConsiderPresumedLiner(at, sample.Seconds, events);
        if (Undecided is { Code: not null } held)
            TakeHand(held, at, sample.Seconds);
        if (Undecided is { Code: not null } here)
            TakeTub(here, at, sample.Seconds);
        if (Undecided is { Code: not null } coded && !TakeThing(coded, at, events))
            TryDecide(coded, at, sample.Seconds, events);
        else if (Checking is { } checking)
            TryCheck(checking, at, sample.Seconds, events);
    }

    public void OnLinkDown(DateTimeOffset at)
    {
        pan.LinkLost();
        lastLift = null;
        linkDownAt = at;
    }

    public void SetDivision(double grams) => pan.Division = grams;

    public void OnUnitChanged(DateTimeOffset at, List<StationEvent> events)
    {
        pan.UnitChanged();
        lastLift = null;
        if (Undecided is { Code: not null } coded)
            Refuse(coded, at, Reasons.UnitChanged, events);
    }

    public DateTimeOffset? Due
    {
        get
        {
            var isOwed = Undecided is { Code: not null } || Checking is not null;
            return Deadline.Earliest(lifted?.At + LateCode, Undecided?.SecondJudgedAt, isOwed ? linkDownAt + LinkPatience : null);
        }
    }

    public void Fire(DateTimeOffset at, List<StationEvent> events)
    {
        if (lifted is { } gone && gone.At + LateCode <= at)
        {
            lifted = null;
            if (gone.Placing.Animal)
                RefuseNameless(gone, at, events);
        }

        if (Undecided is { Second: { } second } doubted && doubted.SecondJudgedAt <= at)
        {
            // While it looks like a lift the other code may yet be the next chick's.
            if (pan.MayBeLifting)
                doubted.SecondJudgedAt = at + ScannerAhead;
            else
                RefuseTwoCodes(doubted, second.Code, at, events);
        }

        if (linkDownAt + LinkPatience <= at && Undecided is { Code: not null } cut)
            Refuse(cut, at, Reasons.LinkLost, events);
        if (linkDownAt + LinkPatience <= at && Checking is { } unheard)
            DropCheck(unheard, at, CheckRemedy(Reasons.LinkLost), events);
    }

    private void OnPlaced(DateTimeOffset at, List<StationEvent> events)
    {
        load = new Load(pan.Load!);
        steady = newer = older = nameless = new Steady(double.NegativeInfinity, SettleState.Moving, double.NaN, double.NaN, 0, default);
        if (AwaitsMass)
            BeginCheck();
        else if (context.Identity.Take() is { } waiting)
            load.Name(waiting.Code, at, waiting.At);
        else if (context.Cards.TakeImplied(at) is { } again)
            load.Name(again, at, at);
        if (load.Code is not null)
            doubtful = null;
        ExpectWeight(at);
        events.Add(new PlacedEvent(at, device, load.Code));
    }

    private void ExpectWeight(DateTimeOffset at)
    {
        if (load?.Code is not { } code || context.Decisions.Expected(code, at) is not { } expected)
            return;
        var habit = context.Decisions.HabitOf(code, at);
        pan.Settler.Expect(expected, habit);
        if (load.Placing.Samples is not [.., var newest])
            return;
        load.Placing.Expected = (newest.Seconds, expected);
        load.Placing.Habit = habit;
    }

    private void OnLifted(DateTimeOffset at, List<StationEvent> events)
    {
        if (load is not { } gone)
            return;
        load = null;
        events.Add(new LiftedEvent(at, device, gone.Code));
        if (gone is { Decided: false, IsCheck: false, Placing.IsStir: true })
        {
            GiveBack(gone);
            return;
        }

        context.Cards.JustLifted = gone.Code;
        lastLift = gone.IsCheck ? null : new LastLift(gone.Placing, pan.LastSeconds) { Weighing = gone.Weighing };
        if (gone.Decided)
            return;
        if (gone.IsCheck)
        {
            DropCheck(gone, at, "The mass was lifted too soon: leave it until the answer comes", events);
            return;
        }

        var before = BeforeLift(pan.LastSeconds);
        if (before.State != SettleState.Settled && nameless.State == SettleState.Settled)
            before = nameless;
        (gone.Placing.JudgedSeconds, gone.Placing.WeighedSeconds) = (before.Seconds, before.Moment);
        if (gone.Code is null)
        {
            // Nobody lays an animal down and takes it up again so soon: it was a hand that wiped the liner.
            lifted = gone.Placing.Stay < Pan.PassingSeconds ? null : new LiftedLoad(gone.Placing, at, before, pan.Settler.Stepped);
            return;
        }

        // The other code was read ahead of the lift: it waits for its own load.
        if (gone.Second is { } second)
            context.Identity.Wait(second.Code, second.At);
        // It had settled before its code came: it was weighed, and only its name was awaited.
        if (before.State == SettleState.Settled && before.Seconds < gone.Placing.CodedSeconds)
        {
            DecideLifted(new LiftedLoad(gone.Placing, at, before, pan.Settler.Stepped), gone.Code, at, events);
            return;
        }

        if (TakeSurest(gone, at) is { } weight)
        {
            DecidedAfterLift(gone.Placing, context.Decisions.Decide(Attempt(gone, at), weight, events), at, events);
            return;
        }

        var refused = IsAnothers(gone, before, at)
            ? context.Decisions.Decide(Attempt(gone, at), WeightOf(gone.Placing, before), events)
            : context.Decisions.Refuse(Attempt(gone, at), WeightOf(gone.Placing, before), LiftReason(gone.Placing, before.State, pan.Settler.Stepped), events);
        DecidedAfterLift(gone.Placing, refused, at, events);
    }

    // Taken again before it was sure enough to be told: what was surest of it, or nothing.
    private Measured? TakeSurest(Load gone, DateTimeOffset at)
    {
        if (gone.Second is not null || pan.Settler.Surest is not { } surest || !surest.WillDo(gone.Placing) || Hopeless(gone.Placing, double.MaxValue) is not null)
            return null;
        var known = new Steady(surest.Seconds, SettleState.Settled, surest.Grams, surest.StandardError, surest.Rounding, surest.Motion);
        var weight = WeightOf(gone.Placing, known);
        if (!TareIsCertain(gone, ref weight, at))
            return null;
        (gone.Placing.JudgedSeconds, gone.Placing.WeighedSeconds) = (known.Seconds, known.Moment);
        return weight;
    }

    // Its weight was known, but too far off to be believed so soon: once no hand lies so long, the keeper hears that it cannot be this chick, and whose it may be.
    private bool IsAnothers(Load gone, in Steady before, DateTimeOffset at) =>
        before.State == SettleState.Contact && gone.Placing.Stay > HandEvidence.HandSeconds + 1 && Hopeless(gone.Placing, double.MaxValue) is null
        && context.Decisions.Fits(gone.Code!, before.Grams, at) == false;

    // The lift itself moves the readings: what was known a second or two before it is what counts.
    private void Remember(double seconds)
    {
        if (pan.Load is null || pan.MayBeLifting)
            return;
        if (pan.Settler.State != SettleState.Moving)
            steady = Now(seconds);
        if (load is { Code: null } && pan.Settler.State == SettleState.Settled)
            nameless = steady;
        if (seconds - newer.Seconds < 1)
            return;
        older = newer;
        newer = Now(seconds);
    }

    private Steady BeforeLift(double seconds)
    {
        const double LiftTakes = 2;
        return seconds - steady.Seconds <= LiftTakes ? steady : older with { State = SettleState.Moving };
    }

    private Steady Now(double seconds) => new(seconds, pan.Settler.State, pan.Settler.Grams, pan.Settler.StandardError, pan.Settler.Rounding, pan.Settler.Motion);

    private static string LiftReason(Placing placing, SettleState state, bool stepped)
    {
        if (placing.Restarted || placing.Tare is null)
            return Reasons.NoTare;
        if (placing.LinkLost)
            return Reasons.LinkLost;
        if (placing.Overload)
            return Reasons.Overload;
        if (placing.Underload)
            return Reasons.Underload;
        return state == SettleState.Contact && !stepped ? Reasons.HandContact : Reasons.Unsettled;
    }

}

/// <summary>What every pan of the station shares.</summary>
internal sealed record RoundContext(Identity Identity, Cards Cards, DecisionMaker Decisions);

/// <summary>An uncoded load just after its lift, with what was known of its weight.</summary>
/// <param name="At">When the lift was noticed.</param>
internal sealed record LiftedLoad(Placing Placing, DateTimeOffset At, Steady Before, bool Stepped)
{
    /// <summary>What stayed of it had to lie still before the lift was noticed; a code that is read so late is the next one's.</summary>
    public bool IsLongGone(DateTimeOffset at, TimeSpan late) =>
        Placing.PartLeft && at.Seconds() - Placing.LeftSeconds > late.TotalSeconds + Pan.LiftSeconds;
}

/// <summary>What the settler knew at a moment.</summary>
internal readonly record struct Steady(double Seconds, SettleState State, double Grams, double StandardError, double Rounding, Motion Motion)
{
    /// <summary>Seconds that the grams are of: the middle of the stretch that was weighed.</summary>
    public double Moment => Seconds - Motion.Seconds / 2;
}
