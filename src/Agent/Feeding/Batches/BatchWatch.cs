using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding.ProbeChecks;
using CaptureAgent.Agent.Feeding.Probes;
using CaptureAgent.Agent.Round;
using CaptureAgent.Protocol.Probes;

namespace CaptureAgent.Agent.Feeding.Batches;

/// <summary>One probe and the batch that it measures.</summary>
internal sealed class BatchWatch(string device, BatchBook book, GuidedCheck guided)
{
    /// <summary>No formula is so warm, °C: another unit, or another thing.</summary>
    private const double Impossible = 60;

    /// <summary>A batch that the probe comes back to may have been kept warm, and read a little differently, °C.</summary>
    private const double WarmerBy = 0.5, ColderBy = 1;

    /// <summary>A forecast so good tells one batch from another, °C.</summary>
    private const double GoodEnough = 0.5;

    public string Device => device;

    private readonly ShownSteps steps = new();
    private readonly ProbeTracker tracker = new(LagMemory.Recalled(book.LagsOf(device)));
    private readonly BatchVerdict verdict = new(book.Options);
    private Batch? chosen;
    private DateTimeOffset? heard;
    private bool impossibleSaid, returned = true;

    // A card taken back gives the probe to the batch of before.
    private Batch? Current
    {
        get
        {
            while (chosen is { IsTakenBack: true })
                chosen = chosen.Instead.LastOrDefault(before => before.Device == device);
            return chosen;
        }
    }

    /// <summary>When the probe last came into something warm; null if it is not in it.</summary>
    public DateTimeOffset? InSince { get; private set; }

    public DateTimeOffset? Due => Deadline.Earliest(
        tracker.OutAt is { } seconds ? Moment(seconds) : null,
        heard is { } last && tracker.Place != ProbePlace.Out ? last + Mute : null);

    private TimeSpan Mute => TimeSpan.FromSeconds(Math.Clamp(5 * tracker.IntervalSeconds, 5, 30));

    /// <summary>Fires what is due at exactly this moment.</summary>
    public void Fire(DateTimeOffset at, List<StationEvent> events)
    {
        if (Due is not { } due || due > at)
            return;
        if (tracker.OutAt is { } seconds && Moment(seconds) <= at)
            tracker.Leave();
        else
            tracker.Forget();
        Lose(at, events);
    }

    /// <summary>Nothing comes from the probe any more.</summary>
    public void OnLinkLost(DateTimeOffset at, List<StationEvent> events)
    {
        tracker.Forget();
        heard = null;
        Lose(at, events);
    }

    /// <summary>The card began a batch, and this probe is or will be in it.</summary>
    public void Bind(Batch begun)
    {
        chosen = begun;
        returned = false;
    }

    /// <param name="age">How long before <paramref name="at"/> it was measured, in seconds, where several came at once.</param>
    public void Take(DateTimeOffset at, double age, in ProbeReading reading, List<StationEvent> events)
    {
        heard = at;
        var shown = (double)reading.Celsius;
        if (guided.Concerns(shown))
        {
            Check(at, reading, events);
            return;
        }

        if (shown > Impossible)
        {
            Refuse(at, shown, events);
            return;
        }

        impossibleSaid = false;
        var correction = book.CorrectionOf(device);
        var step = (double)steps.Take(reading);
        var view = tracker.Take(at.Seconds() - age, shown - correction.ErrorAt(shown, at), step);
        if (view.InFormula)
        {
            var uncertainty = Math.Sqrt(
                (view.Deviation * view.Deviation) + Math.Pow(correction.Uncertainty(at), 2) + (step * step / 12));
            events.Add(new ProbeEvent(at, device, Rounded(view.Celsius), Rounded(uncertainty), view.Settled && !reading.IsIntermediate, reading.Celsius));
            Measure(at, view with { Place = reading.IsIntermediate && view.Settled ? ProbePlace.Moving : view.Place }, step, events);
        }
        else if (view.Place == ProbePlace.Out)
        {
            Lose(at, events);
        }

        if (tracker.Lag.TakeNews() is { } shownLag)
            events.Add(new ProbeLagEvent(at, device, shownLag.Constant) { Id = book.NextId("probe-lag", at), Lags = shownLag.Lags });
    }

    private void Measure(DateTimeOffset at, in ProbeView view, double resolution, List<StationEvent> events)
    {
        InSince ??= Moment(tracker.DippedAt);
        Choose(at, view, events);
        var measured = chosen!;
        var settledBefore = measured.Agreement.Celsius;
        measured.ConstantSeconds = tracker.Lag.ConstantSeconds;
        if (view.Settled)
            Record(at, view, resolution, measured);
        var state = verdict.Of(measured, view, tracker, settledBefore, at);

        // Just put back, a probe may foretell anything: what the batch had is nearer, as long as it keeps its state.
        if (view.Settled || view.Deviation <= GoodEnough || measured.SettledCelsius is null || state != measured.State)
            measured.Celsius = view.Celsius;
        book.Set(measured, state, at, events);
    }

    private void Record(DateTimeOffset at, in ProbeView view, double resolution, Batch measured)
    {
        var seconds = at.Seconds();
        measured.Agreement.Take(seconds, view.Celsius, view.Visit, measured.Cooling?.Expected(seconds)?.Least);
        if (measured.Agreement.Stir)
            measured.Cooling = null;
        measured.Cooling ??= NewCooling();
        measured.Cooling.Add(seconds, view.Celsius, resolution, tracker.IsFullyRisen);
    }

    // What is dipped into after some time out may be the batch of before, or another.
    private void Choose(DateTimeOffset at, in ProbeView view, List<StationEvent> events)
    {
        if (returned)
            chosen = book.TakePending(device) ?? Current ?? book.NewestOf(device, at);
        if (Current is not { } batch || (returned && at - batch.MixedAt > Batch.Longest))
            Start(at);
        else if (returned && !tracker.Returning && (view.Settled || view.Deviation <= GoodEnough) && !MayBeTheSame(batch, view.Celsius, view.Settled ? 0 : 2 * view.Deviation, at))
            Start(at);
        if (view.Settled)
            returned = false;
    }

    private void Start(DateTimeOffset at)
    {
        chosen = book.Begin(at, Moment(tracker.DippedAt) is var dipped && dipped < at ? dipped : at, device);
        returned = false;
    }

    private static bool MayBeTheSame(Batch batch, double celsius, double doubt, DateTimeOffset at) =>
        batch.SettledCelsius is not { } before || batch.Coldest(at.Seconds()) is not { } coldest
            || (celsius - doubt <= before + WarmerBy && celsius + doubt >= coldest - ColderBy);

    private CoolingRecord NewCooling() => book.Options.RoomCelsius is { } room ? new((double)room, 1)
        : double.IsNaN(tracker.Air) ? new(CoolingRecord.UsualRoom, 3)
        : new(tracker.Air, 1.5);

    private void Lose(DateTimeOffset at, List<StationEvent> events)
    {
        InSince = null;
        returned = true;
        if (Current is not { } lost || lost.State is BatchStates.Unmeasured or BatchStates.Discard)
            return;
        lost.Celsius = null;
        book.Set(lost, at >= lost.DiscardAt ? BatchStates.Discard : BatchStates.Unmeasured, at, events);
    }

    private void Refuse(DateTimeOffset at, double shown, List<StationEvent> events)
    {
        tracker.Forget();
        Lose(at, events);
        if (impossibleSaid)
            return;
        impossibleSaid = true;
        events.Add(new AlertEvent(at, "not-formula", null, device, BatchTexts.NoFormula(device, shown)));
    }

    private void Check(DateTimeOffset at, in ProbeReading reading, List<StationEvent> events)
    {
        tracker.Forget();
        Lose(at, events);
        if (guided.Take(device, at.Seconds(), (double)reading.Celsius, (double)reading.ResolutionCelsius) is not { } shown)
            return;
        var (kind, expected) = (guided.Kind!, Math.Round((decimal)guided.Expected, 2));
        guided.End();
        ProbeCheckTelling.Tell(at, device, kind, Math.Round((decimal)shown, 2), expected, book, events);
    }

    private static decimal Rounded(double celsius) => Math.Round((decimal)celsius, 2);

    private static DateTimeOffset Moment(double seconds) => new((long)(Math.Round(seconds * 1000) * TimeSpan.TicksPerMillisecond), TimeSpan.Zero);
}
