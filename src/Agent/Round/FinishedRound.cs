using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Round;

/// <summary>One pass over the chicks at a scale that sends finished values only, one a load: what the pan feels in between nobody is told. Pure.</summary>
/// <remarks>
/// A value near the tare, or below it, is the pan at rest; what comes on a bare pan is the liner if it could be one. Every other value is a load, settled by the
/// scale's word. Lifts are not told: a value at another level, or the same level after a pause, is another load.
/// </remarks>
/// <param name="standing">How long a value must stand before it counts as finished, unless it is repeated; zero: the scale sends no other.</param>
internal sealed partial class FinishedRound(string device, RoundContext context, CheckMass? mass, TimeSpan standing) : IScaleRound
{
    /// <summary>Accepted weights are right within this share (the acceptance band).</summary>
    private const double BandShare = 0.003;

    /// <summary>A towel is no heavier (common practice, no source).</summary>
    private const double TowelGrams = 20;

    /// <summary>Values that differ by less, in divisions, are of one load: the last digit wavers.</summary>
    private const double Wavers = 1.5;

    /// <summary>A scale that repeats a finished value does so faster than a keeper lifts one chick and lays another down. What is advertised is repeated for ever.</summary>
    private readonly TimeSpan repeats = standing > TimeSpan.Zero ? TimeSpan.MaxValue : TimeSpan.FromSeconds(8);

    /// <summary>A code that waits names a lone still load after this time, if it fits.</summary>
    private static readonly TimeSpan NothingMoreComes = TimeSpan.FromSeconds(8);

    private static readonly TimeSpan LateCode = TimeSpan.FromSeconds(3);

    private readonly Queue<PanSample> history = [];
    private double division;

    // Of one value: standard uncertainty in grams, JCGM 100 F.2.2.1.
    private double Rounding => division / Math.Sqrt(12);

    /// <summary>Level of the bare pan, in grams: such a scale zeroes itself when it is switched on.</summary>
    private double bare;

    private Rest? tare;
    private DateTimeOffset? presumedAt;
    private FinishedLoad? load;
    private (FinishedLoad Load, DateTimeOffset At)? lifted;
    private (PanSample Sample, DateTimeOffset At)? standingValue;

    public bool CanCheck => mass is not null;

    private bool AwaitsMass => mass is not null && context.Cards.CheckAt is not null;

    public DateTimeOffset? Due => Deadline.Earliest(
        standingValue?.At + standing, lifted?.At + LateCode, Nameless?.SeenAt + Identity.Waits,
        presumedAt is { } seen && context.Identity.Waiting is { } waiting ? Later(seen, waiting.At) + NothingMoreComes : null);

    /// <summary>The load that waits for its code.</summary>
    private FinishedLoad? Nameless => load is { Decided: false } ? load : null;

    public void OnSample(DateTimeOffset at, in PanSample sample, List<StationEvent> events)
    {
        if (sample.Range == LoadRange.Overload && context.Identity.Take() is { } waiting)
            RefuseOverload(waiting.Code, at, sample, events);
        if (sample.Range != LoadRange.Within)
            return;
        if (standing > TimeSpan.Zero && (standingValue is not { } last || last.Sample.Grams != sample.Grams))
        {
            standingValue = (sample, at);
            return;
        }

        standingValue = null;
        Take(at, sample, events);
    }

    // Such scales connect for every value.
    public void OnLinkDown(DateTimeOffset at)
    {
    }

    public void SetDivision(double grams) => division = grams;

    public void OnUnitChanged(DateTimeOffset at, List<StationEvent> events)
    {
    }

    public void Fire(DateTimeOffset at, List<StationEvent> events)
    {
        if (standingValue is { } stood && stood.At + standing <= at)
        {
            standingValue = null;
            Take(at, stood.Sample, events);
        }

        if (lifted is { } gone && gone.At + LateCode <= at)
        {
            lifted = null;
            RefuseNameless(gone.Load, at, events);
        }

        if (Nameless is { } forgotten && forgotten.SeenAt + Identity.Waits <= at)
            Drop(forgotten, at, events);
        TryPresumed(at, events);
    }

    private void Take(DateTimeOffset at, in PanSample sample, List<StationEvent> events)
    {
        history.Enqueue(sample);
        if (history.Count > 8)
            history.Dequeue();
        var grams = (double)sample.Grams;
        if (load is { } here && Math.Abs(grams - here.Grams) < Wavers * division && at - here.SeenAt < repeats)
        {
            here.SeenAt = at;
            return;
        }

        if (IsRest(grams))
            Rest(at, sample.Seconds, grams, events);
        else
            Place(at, sample, events);
    }

    private bool IsRest(double grams)
    {
        if (tare is { Lined: true } lined)
            return grams - lined.Grams < Wavers * division;
        return grams - bare <= Pan.HeaviestLiner && !(AwaitsMass && grams - bare >= Round.LikeTheMass * (double)mass!.Grams);
    }

    private void Rest(DateTimeOffset at, double seconds, double grams, List<StationEvent> events)
    {
        if (load is { } gone)
        {
            if (!gone.Decided)
                lifted = (gone, at);
            events.Add(new LiftedEvent(at, device, gone.Code));
            context.Cards.JustLifted = gone.Code;
        }

        load = null;
        presumedAt = tare is not { Lined: true } && grams - bare >= division ? at : null;
        SetTare(at, seconds, grams, events);
    }

    private void SetTare(DateTimeOffset at, double seconds, double grams, List<StationEvent> events)
    {
        var isNew = tare is null || Math.Abs(tare.Grams - grams) >= division;
        bare = grams - bare < division ? grams : bare;
        tare = new Rest(seconds, grams, Rounding, Lined: grams > bare);
        if (isNew)
            events.Add(new TareEvent(at, device, Milligram.Nearest(grams), Milligram.Nearest(Rounding)));
    }

    private void Place(DateTimeOffset at, in PanSample sample, List<StationEvent> events)
    {
        presumedAt = null;
        var under = Replace(at, sample, events);
        load = new FinishedLoad(at, (double)sample.Grams, PlacingOn(tare, sample.Seconds)) { Under = under };
        if (AwaitsMass)
        {
            events.Add(new PlacedEvent(at, device, null));
            Check(load, at, events);
            return;
        }

        var code = context.Identity.Take()?.Code ?? context.Cards.TakeImplied(at);
        events.Add(new PlacedEvent(at, device, code));
        if (code is not null)
            Decide(load, code, at, events);
    }

    private Placing PlacingOn(Rest? under, double seconds) => new(seconds, under, history) { IsFinished = true, Announced = true };

    // What lay there before was lifted unseen, was a towel laid on the liner, or lies there still.
    private FinishedLoad? Replace(DateTimeOffset at, in PanSample sample, List<StationEvent> events)
    {
        if (load is not { } before)
            return null;
        context.Cards.JustLifted = before.Code;
        if (before.Decided)
            return null;
        if (before.Net <= TowelGrams)
            SetTare(at, sample.Seconds, before.Grams, events);
        else if ((double)sample.Grams > before.Grams)
            return before;
        else
            RefuseNameless(before, at, events);
        return null;
    }

    private static DateTimeOffset Later(DateTimeOffset one, DateTimeOffset other) => one > other ? one : other;
}
