using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Weighing;

namespace CaptureAgent.Agent.Round;

// One decision for every placing, as soon as it is certain and while the chick still lies there.
internal sealed partial class Round
{
    /// <summary>A towel is no heavier (common practice, no source); a tub is.</summary>
    private const double TowelGrams = 20;

    /// <summary>A still level below this share of the whole is a thing, not a chick under a hand.</summary>
    private const double StillestShare = 0.3;

    private void TryDecide(Load coded, DateTimeOffset at, double seconds, List<StationEvent> events)
    {
        // Whether the second code belongs here or to the next chick is known in a moment.
        if (coded.Second is not null)
            return;

        var placing = coded.Placing;
        var lain = seconds - placing.Seconds;
        if (Hopeless(placing, lain) is { } reason)
        {
            Refuse(coded, at, reason, events);
            return;
        }

        if (pan.Settler.State == SettleState.Settled)
            Settle(coded, at, events);
        else if (lain > PatienceSeconds && (at - coded.CodedAt).TotalSeconds > PatienceSeconds)
            Refuse(coded, at, Reasons.Unsettled, events);
    }

    private string? Hopeless(Placing placing, double lain)
    {
        // What came onto the bare pan while nothing was heard may be the liner with the chick.
        if (placing is { Tare.Lined: false } && (placing.LinkLost || placing.Gaps.Count > 0) && !pan.IsWithoutLiners)
            return Reasons.LinkLost;
        if (placing.UnitChanged)
            return Reasons.UnitChanged;
        if (placing.Restarted || placing.PartLeft || placing.Tare is null && lain > 1.5)
            return Reasons.NoTare;
        if (placing.Overload)
            return Reasons.Overload;
        if (placing.Underload)
            return Reasons.Underload;
        return placing.Overflow > 0 ? Reasons.LinkLost : null;
    }

    private void Settle(Load coded, DateTimeOffset at, List<StationEvent> events)
    {
        var known = Now(pan.LastSeconds);
        var weight = WeightOf(coded.Placing, known);
        var isCertain = TareIsCertain(coded, ref weight, at);
        var weighing = isCertain
            ? context.Decisions.Decide(Attempt(coded, at), weight, events)
            : context.Decisions.Refuse(Attempt(coded, at), weight, Reasons.NoTare, events);
        if (isCertain && coded.Placing.Tare is { } liner)
            pan.Used(liner);
        coded.Decide(weighing, known.Moment);
    }

    // A still thing that lay there before the load may have been a liner, or a hand that carried part of the chick.
    private bool TareIsCertain(Load coded, ref Measured weight, DateTimeOffset at) =>
        !MayLieInTaken(coded, weight.Grams, at) && LinerIsCertain(coded, ref weight, at) && NothingLayBetween(coded, ref weight, at) && WasLaid(coded, weight, at);

    private bool LinerIsCertain(Load coded, ref Measured weight, DateTimeOffset at)
    {
        if (IsLiner(coded, weight.Grams, at) is not { } isLiner)
            return false;
        if (isLiner)
            return true;
        var gross = weight.Grams + coded.Placing.Tare!.PresumedGrams;
        coded.Placing.TareIsBarePan();
        weight = weight with { Grams = gross, Tare = coded.Placing.Tare };
        return true;
    }

    // What lay under the load: a liner, or a hand that carried part of the chick. Null: either may be.
    private bool? IsLiner(Load coded, double net, DateTimeOffset at)
    {
        var placing = coded.Placing;
        if (placing.Tare is not { Bare: not null } presumed || placing.Seconds - presumed.Since >= HandEvidence.HandSeconds)
            return true;

        // Whoever scanned while it lay there had no hand on it.
        var liner = presumed.PresumedGrams;
        var scannedAfter = coded.ScannedAt.Seconds();
        if (scannedAfter > presumed.Since && scannedAfter < placing.Seconds || LikeALiner(liner))
            return true;

        // No hand is still while it carries nearly all of a chick.
        if (liner < StillestShare * (net + liner))
            return true;
        var asNet = context.Decisions.Fits(coded.Code!, net, at);
        var asGross = context.Decisions.Fits(coded.Code!, net + liner, at);
        if (asGross == true && asNet != true)
            return false;
        if (liner <= TowelGrams && asNet is not null || asNet == true && asGross != true)
            return true;

        // Of a chick of which nothing is known: a hand that holds nearly all of it is lighter by little, and not in equilibrium for long.
        return asNet is null && (pan.LinerLay || liner <= TowelGrams && net >= StillestShare * liner) ? true : null;
    }

    // On what a hand had carried the chick's own weight is never seen, and the settler would wait for it in vain.
    private void TakeHand(Load coded, DateTimeOffset at, double seconds)
    {
        const double WaitedInVain = 8;
        var net = pan.Settler.Grams;
        if (coded.Second is not null || pan.Settler.State == SettleState.Settled || seconds - coded.Placing.Seconds < WaitedInVain || coded.Placing is not { LinkLost: false, Gaps.Count: 0 })
            return;
        if (IsLiner(coded, net, at) != false || IsAboutExpected(coded.Code!, net + coded.Placing.Tare!.PresumedGrams, at) != true)
            return;
        WeighAnew(pan.LoadIsOnBarePan(), coded, at);
    }

    // A tub that was taken off, and put back with the chick in it.
    private void TakeTub(Load coded, DateTimeOffset at, double seconds)
    {
        const double SoonestSeconds = 1;
        var grams = pan.Settler.Grams;
        if (coded.Second is not null || coded.Placing is not { Tare.Lined: false, LinkLost: false, Gaps.Count: 0 } || seconds - coded.Placing.Seconds < SoonestSeconds || !IsWithTaken(coded.Code!, grams, at))
            return;
        WeighAnew(pan.LoadIsOnTaken(), coded, at);
    }

    // The same load, on another tare.
    private void WeighAnew(Placing placing, Load coded, DateTimeOffset at)
    {
        load = new Load(placing);
        load.Name(coded.Code!, at, coded.ScannedAt);
        ExpectWeight(at);
    }

    // Nobody saw the pan with what the chick may lie in.
    private bool MayLieInTaken(Load coded, double grams, DateTimeOffset at) =>
        coded.Placing.Tare is { Lined: false } && (coded.Placing.HastyTare || pan.TakenGrams > TowelGrams && context.Decisions.FitsHistory(coded.Code!, grams, at) != true);

    // A second towel on the first, say: lighter than any hand leaves a chick, and stiller.
    private bool NothingLayBetween(Load coded, ref Measured weight, DateTimeOffset at)
    {
        var (plateau, net, code) = (pan.Settler.LowPlateau, weight.Grams, coded.Code!);
        var (low, expected) = (plateau.Grams, context.Decisions.Expected(code, at));
        if (double.IsNaN(low) || low <= 3 * pan.Division)
            return true;
        var makesUp = expected is { } chick && plateau.MakesUp(net, chick);
        if (!plateau.IsStill || !makesUp && low >= StillestShare * net)
            return !makesUp && !plateau.OutlastsHand(net);

        // Something fell onto the liner before the chick came: no hand hovers so still, and what the chick should weigh does not gainsay it.
        if (makesUp || Pan.IsThing(low, net) && expected is not null)
        {
            coded.Placing.TareHas(low, Uncertainty.Rounding(pan.Division, 0));
            weight = weight with { Grams = net - low, Tare = coded.Placing.Tare };
            return true;
        }

        return context.Decisions.FitsHistory(code, net, at) switch
        {
            null => low > TowelGrams,
            true => context.Decisions.FitsHistory(code, net - low, at) != true,
            false => false,
        };
    }

    // What came onto the liner was a hovering hand's doing after all, if the weight with it is twenty times likelier than without.
    private bool WasLaid(Load coded, in Measured weight, DateTimeOffset at)
    {
        const double Likelier = 20;
        if (weight.Tare is not { Laid: > 0 } tare || context.Decisions.Expected(coded.Code!, at) is not { } expected)
            return true;
        return DaySpread.LogOdds(weight.Grams + tare.Laid, weight.Grams, expected) < Math.Log(Likelier);
    }

    private bool LikeALiner(double grams) => pan.Liners.Any(liner => Math.Abs(liner - grams) < Math.Max(1.5, 0.1 * liner));

    private Measured WeightOf(Placing placing, in Steady known) => new(placing.PartLeft ? double.NaN : known.Grams, known.StandardError, placing.Tare, pan.Division)
    {
        Rounding = known.Rounding,
        Drift = placing.DriftUntil(known.Seconds),
        Motion = known.State == SettleState.Settled ? known.Motion : null,
    };

    private Attempt Attempt(Load coded, DateTimeOffset at) => new(device, coded.Code, at, coded.Placing);

    /// <summary>A refusal of what is on the pan, with the best value there is.</summary>
    private void Refuse(Load refused, DateTimeOffset at, string reason, List<StationEvent> events)
    {
        refused.Decide(context.Decisions.Refuse(Attempt(refused, at), BestValue(refused.Placing), reason, events), Now(pan.LastSeconds).Moment);
    }

    private void RefuseTwoCodes(Load doubted, string second, DateTimeOffset at, List<StationEvent> events)
    {
        var nameless = Attempt(doubted, at) with { Code = null, Note = $"{doubted.Code} and {second} were scanned. " };
        doubted.Decide(context.Decisions.Refuse(nameless, BestValue(doubted.Placing), Reasons.TwoCodes, events), Now(pan.LastSeconds).Moment);
    }

    private void RefuseNameless(LiftedLoad gone, DateTimeOffset at, List<StationEvent> events) => DecidedAfterLift(gone.Placing, context.Decisions.Refuse(
        new Attempt(device, null, at, gone.Placing), WeightOf(gone.Placing, gone.Before), Reasons.NoCode, events), at, events);

    private Measured BestValue(Placing placing) =>
        WeightOf(placing, placing.Overload || placing.Underload ? Now(pan.LastSeconds) with { Grams = double.NaN } : Now(pan.LastSeconds));
}
