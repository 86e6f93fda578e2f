using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Weighing;

namespace CaptureAgent.Agent.Round;

// What is presumed to be the liner may be the chick whose code waits: it is weighed, or refused, and never just gone.
internal sealed partial class Round
{
    /// <summary>What came and went while a code waited, and may have been its chick.</summary>
    private (string Code, DateTimeOffset At, Placing Placing, double Grams)? doubtful;

    /// <summary>What was presumed to be the liner and taken away last, and when.</summary>
    private (Placing Placing, double Grams, double Seconds)? gone;

    // An eight-gram sleeper looks like a towel: it is the chick if its code waits and its weight fits, and it moves like one or nothing more comes.
    private void ConsiderPresumedLiner(DateTimeOffset at, double seconds, List<StationEvent> events, double nothingMoreComes = 12)
    {
        if (pan.Load is not null || pan.Rest is not { Bare: { } bare } presumed || context.Identity.Waiting is not { } waiting)
            return;
        var alone = seconds - presumed.Since >= nothingMoreComes && (at - waiting.At).TotalSeconds >= nothingMoreComes;
        if (!alone && !pan.DoubtStirs)
            return;
        var under = new[] { bare, bare.Bare }.FirstOrDefault(rest => rest is not null && IsWaitedFor(waiting.Code, presumed.Grams - rest.Grams, alone, at));
        if (under is null)
            return;
        context.Identity.Take();
        load = new Load(pan.PresumedLinerIsLoad(under));
        load.Name(waiting.Code, at, waiting.At);
        ExpectWeight(at);
        events.Add(new PlacedEvent(at, device, waiting.Code));
    }

    // It is being lifted, and nothing more has come for longer than a hand rests: what is weighed now is told, for afterwards it would only be gone. A liner may be taken away again, too, so that it must weigh what the chick should.
    private void ConsiderLifted(DateTimeOffset at, in PanSample sample, List<StationEvent> events)
    {
        if (!pan.IsLeft(sample) || context.Identity.Waiting is not { } waiting || !pan.IsWithoutLiners && IsAboutExpected(waiting.Code, pan.Rest!.PresumedGrams, at) != true)
            return;
        ConsiderPresumedLiner(at, sample.Seconds, events, HandEvidence.HandSeconds + 1);
        if (Undecided is { Code: not null } coded)
            TryDecide(coded, at, pan.LastSeconds, events);
    }

    // What only lies there must weigh about what the chick should: with a liner under it, or over the edge, it would not. What moves as only an animal does is one, though nothing be known of its weight; not so what lay in equilibrium before, for a fan or a draught may have come up.
    private bool IsWaitedFor(string code, double grams, bool alone, DateTimeOffset at)
    {
        if (IsWithTaken(code, grams, at))
            return pan.DoubtStirs || IsAboutExpected(code, grams - pan.TakenGrams, at) != false;
        if (LikeALiner(grams))
            return false;
        var fits = context.Decisions.FitsHistory(code, grams, at);
        if (pan.DoubtStirs && !pan.DoubtLay || pan.IsWithoutLiners)
            return fits != false;
        return IsAboutExpected(code, grams, at) is { } isAbout ? isAbout && fits == true : alone && fits == true;
    }

    // By its weight it can only be the chick with the liner that was taken off; with a tub, it is likelier that than a chick that gained so much.
    private bool IsWithTaken(string code, double grams, DateTimeOffset at)
    {
        if (pan.Taken is null || context.Decisions.FitsHistory(code, grams - pan.TakenGrams, at) != true)
            return false;
        return context.Decisions.FitsHistory(code, grams, at) != true
            || pan.TakenGrams > TowelGrams && IsAboutExpected(code, grams - pan.TakenGrams, at) == true && IsAboutExpected(code, grams, at) == false;
    }

    // Null where there is nothing to expect.
    private bool? IsAboutExpected(string code, double grams, DateTimeOffset at)
    {
        const double Off = 0.075;
        return context.Decisions.HasForecast(code) && context.Decisions.Expected(code, at) is { } expected ? Math.Abs(Math.Log(grams / expected)) <= Off : null;
    }

    // The code that a stir of what lies there had taken waits on.
    private void GiveBack(Load stirred)
    {
        if (stirred.Second is { } second)
            context.Identity.Wait(second.Code, second.At);
        else if (stirred.Code is { } code && context.Identity.Waiting is null)
            context.Identity.Wait(code, stirred.ScannedAt);
    }

    // Where the weight fits the chick, it was the chick: its keeper must hear that it was not weighed. Where it does not, it was likelier a liner, and the code waits on.
    private void OnGone(DateTimeOffset at, List<StationEvent> events)
    {
        var (grams, seconds) = pan.GoneWith;
        gone = pan.Gone is { } one ? (one, grams, seconds) : null;
        if (pan.Gone is not { } placing || context.Identity.Waiting is not { } waiting || TakeLate(waiting, at, events))
            return;
        var isInTub = IsWithTaken(waiting.Code, grams, at);
        if (LikeALiner(grams) && !isInTub)
            return;
        if (waiting.At.Seconds() > seconds)
            return;
        doubtful = (waiting.Code, waiting.At, placing, grams);
        if (!isInTub && context.Decisions.FitsHistory(waiting.Code, grams, at) != true)
            return;
        context.Identity.Take();
        RefuseDoubtful(at, events);
    }

    // Taken for the liner, and lifted: a code that comes just after names it, where its weight fits, and never the next one.
    private string? TryNameGone(string code, DateTimeOffset at, List<StationEvent> events)
    {
        if (!IsOfGone(code, at))
            return null;
        doubtful = (code, at, gone!.Value.Placing, gone.Value.Grams);
        gone = null;
        RefuseDoubtful(at, events);
        return "lifted";
    }

    // The code came before the pan had come to rest without it.
    private bool TakeLate((string Code, DateTimeOffset At) waiting, DateTimeOffset at, List<StationEvent> events)
    {
        if (!IsOfGone(waiting.Code, waiting.At))
            return false;
        context.Identity.Take();
        return TryNameGone(waiting.Code, waiting.At, events) is not null;
    }

    // What shows net zero was tared with the scale's own key, and lies there still.
    private bool IsOfGone(string code, DateTimeOffset at)
    {
        if (gone is not var (_, grams, seconds) || pan.Rest is { Lined: true } rest && Math.Abs(rest.Grams) < pan.Least)
            return false;
        var late = at.Seconds() - seconds;
        return late > 0 && late <= LateCode.TotalSeconds && !LikeALiner(grams) && context.Decisions.FitsHistory(code, grams, at) == true && IsAboutExpected(code, grams, at) != false;
    }

    public bool Forsake((string Code, DateTimeOffset At) waited, DateTimeOffset at, List<StationEvent> events)
    {
        if (doubtful is not { } here || (here.Code, here.At) != waited)
            return false;
        RefuseDoubtful(at, events);
        return true;
    }

    private void RefuseDoubtful(DateTimeOffset at, List<StationEvent> events)
    {
        var (code, _, placing, grams) = doubtful!.Value;
        doubtful = null;
        placing.JudgedSeconds = double.NegativeInfinity;
        context.Decisions.Refuse(
            new Attempt(device, code, at, placing, "What lay on the bare pan may have been the chick or a liner. "), new Measured(grams, double.NaN, placing.Tare, pan.Division), Reasons.NoTare, events);
    }
}
