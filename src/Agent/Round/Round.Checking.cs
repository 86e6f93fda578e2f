using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Weighing;

namespace CaptureAgent.Agent.Round;

// A known mass in place of a chick: after the check card the next load is one. It is no weighing, and takes no chick's code.
internal sealed partial class Round
{
    /// <summary>A hand lets go of a mass at once: what has lain there for so long has none on it (common practice, no source).</summary>
    private const double MassIsFreeSeconds = 5;

    /// <summary>A load lighter than this share of the mass, or heavier than its inverse, is another thing: a towel that is laid first, say.</summary>
    internal const double LikeTheMass = 0.5;

    public bool CanCheck => mass is not null;

    /// <summary>The mass that lies on the pan and has not been weighed.</summary>
    private Load? Checking => load is { IsCheck: true, Decided: false } ? load : null;

    private bool AwaitsMass => mass is not null && context.Cards.CheckAt is not null;

    private void BeginCheck()
    {
        load!.IsCheck = true;
        context.Cards.CheckAt = null;
    }

    // On a bare pan a still load is presumed to be the liner; after the card it is the mass.
    private bool TakePresumedLiner(DateTimeOffset at, List<StationEvent> events)
    {
        if (!AwaitsMass || pan.Load is not null || pan.Rest is not { Bare: { } bare } presumed)
            return false;
        var scanned = context.Cards.CheckAt!.Value.Seconds();
        if (presumed.Since < scanned || presumed.PresumedGrams < LikeTheMass * (double)mass!.Grams)
            return false;
        load = new Load(pan.PresumedLinerIsLoad(bare));
        BeginCheck();
        events.Add(new PlacedEvent(at, device, null));
        return true;
    }

    private void TryCheck(Load checking, DateTimeOffset at, double seconds, List<StationEvent> events)
    {
        var lain = seconds - checking.Placing.Seconds;
        if (Hopeless(checking.Placing, lain) is { } reason)
            DropCheck(checking, at, CheckRemedy(reason), events);
        else if (pan.InEquilibrium() && (pan.Settler.State == SettleState.Settled || pan.Settler.State == SettleState.Contact && lain >= MassIsFreeSeconds))
            Check(checking, at, events);
        else if (lain > PatienceSeconds)
            DropCheck(checking, at, "It did not come to rest: shut out draughts, keep hands and cables off the pan", events);
    }

    private void Check(Load checking, DateTimeOffset at, List<StationEvent> events)
    {
        var weight = BestValue(checking.Placing);
        var share = weight.Grams / (double)mass!.Grams;
        if (share is < LikeTheMass or > 1 / LikeTheMass)
        {
            DropCheck(checking, at, FormattableString.Invariant($"What lies there weighs {weight.Grams:0.0##} g, and the check mass {mass.Grams:0.###} g: put the mass on, nothing else"), events);
            return;
        }

        checking.Decided = true;
        context.Decisions.Check(Attempt(checking, at), weight, mass, events);
    }

    private void DropCheck(Load checking, DateTimeOffset at, string why, List<StationEvent> events)
    {
        checking.Decided = true;
        events.Add(new AlertEvent(at, "check-dropped", null, device, $"The scale was not checked. {why}, then scan the check card again."));
    }

    private static string CheckRemedy(string reason) => reason switch
    {
        Reasons.NoTare => "What lay on the pan before is not known: take everything off and wait a moment",
        Reasons.UnitChanged => "Set the scale back to grams and take the mass off",
        Reasons.Overload => "The mass is too heavy for this scale: take a smaller one and change checkMassGrams",
        Reasons.Underload => "The scale shows less than it can: put the pan back in place",
        _ => "The scale was not heard for a while: take the mass off and wait until the pan is still",
    };
}
