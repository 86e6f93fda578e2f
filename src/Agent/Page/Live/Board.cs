using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Thriving;

namespace CaptureAgent.Agent.Page.Live;

/// <summary>Makes of the events, one by one, what the page shows of the moment. Knows no clock: time comes with the events.</summary>
/// <remarks>Not thread-safe: <see cref="EventFeed"/> owns it.</remarks>
internal sealed class Board(StationOptions station, string run, DateTimeOffset start)
{
    private const int AlertsKept = 20;

    private readonly NurseryDay days = new(TimeZoneInfo.FindSystemTimeZoneById(station.TimeZone), station.DayStartsAt);

    private readonly List<DeviceSituation> devices =
        [.. station.Devices.Select(device => new DeviceSituation(device.Id, device.Role, "unknown", null, null))];

    private readonly List<AlertSituation> alerts = [];

    private readonly List<FindingSituation> findings = [];

    private readonly List<DueSituation> dues = [];

    /// <summary>As the whole morning has them, which a single weighing cannot tell.</summary>
    private IReadOnlyList<FindingSituation> morning = [];

    private PanSituation pan = new(PanStep.Start);

    private BatchSituation? batch;

    private DateTimeOffset at = start;

    private long version, record, alertIds;

    public long Version => version;

    public Situation Situation => new(
        station.Station, run, version, record, at, days.Of(at), pan, batch, [.. devices], [.. alerts],
        [.. findings, .. morning.Where(found => !findings.Exists(told => told.Chick == found.Chick && told.Finding == found.Finding))], [.. dues]);

    /// <summary>The store has changed without an event: by the page itself, or by another program.</summary>
    public void RecordChanged()
    {
        record++;
        version++;
    }

    /// <summary>What the review of the morning found; it stands until the next one or the next day.</summary>
    public void Review(DateOnly day, IReadOnlyList<FindingSituation> found)
    {
        if (day != days.Of(at) || found.SequenceEqual(morning))
            return;
        morning = found;
        RecordChanged();
    }

    public void Take(StationEvent station)
    {
        TurnDay(station.At);
        var changed = station switch
        {
            WeighingEvent weighing => Take(weighing),
            FeedEvent feed => Take(feed),
            IntakeEvent intake => Take(intake),
            CropEvent crop => Note(crop.At, crop.Chick, ObservationKinds.CropFull),
            ObservationEvent seen => Note(seen.At, seen.Chick, seen.Observation),
            ChoreEvent chore => Take(chore),
            CheckEvent check => Show(new(PanStep.Checked, check.At, Grams: check.Grams, Text: check.Ok ? "good" : "off")),
            ProbeCheckEvent check => Show(new(PanStep.Checked, check.At, Text: check.Ok ? "good" : "off")),
            DueEvent due => Take(due),
            UndoEvent undo => Show(new(PanStep.TakenBack, undo.At, undo.Chick, Text: undo.Undone)),
            ScanEvent scan => Take(scan),
            TareEvent tare => Take(tare),
            PlacedEvent placed => Take(placed),
            // Lifted without a decision: nothing that was to be weighed.
            LiftedEvent lifted => pan.Step == PanStep.Weighing && Show(new(PanStep.Tared, lifted.At)),
            ProbeEvent probe => Take(probe),
            BatchEvent state => Take(state),
            FindingEvent finding => Take(finding),
            DeviceEvent device => Take(device),
            AlertEvent alert => Take(alert),
            _ => false,
        };
        // A finding follows the weighing it is about, and the round shows both.
        if (station is DecisionEvent or FindingEvent)
            record++;
        if (changed || station is DecisionEvent)
            version++;
    }

    private void TurnDay(DateTimeOffset now)
    {
        if (days.Of(now) != days.Of(at))
        {
            findings.Clear();
            morning = [];
        }

        at = now;
    }

    private bool Show(PanSituation next)
    {
        pan = next;
        return true;
    }

    private bool Take(WeighingEvent weighing) => Show(new(
        weighing.Verdict == "accepted" ? PanStep.Accepted : PanStep.Refused, weighing.At, weighing.Chick, weighing.Grams, weighing.UncertaintyGrams,
        weighing.GainGrams, weighing.AgeDays, weighing.Reasons, weighing.Remedy, weighing.TareGrams, weighing.StoredAt));

    private bool Take(FeedEvent feed)
    {
        dues.RemoveAll(due => due.Chick == feed.Chick);
        return Show(new(PanStep.Fed, feed.At, feed.Chick));
    }

    // Of the chick that is shown anyway: by card or by a second weighing, its feed came just before.
    private bool Take(IntakeEvent intake) => pan.Chick == intake.Chick && Show(pan with { IntakeGrams = intake.Grams });

    // A weight that was just told of this chick goes on standing there.
    private bool Note(DateTimeOffset when, string chick, string kind) => Show(
        pan.Chick == chick ? pan with { Step = PanStep.Noted, At = when, Reasons = null, Text = kind } : new(PanStep.Noted, when, chick, Text: kind));

    private bool Take(ChoreEvent chore)
    {
        dues.RemoveAll(due => due.Due == chore.Chore);
        return Show(new(PanStep.Noted, chore.At, Text: chore.Chore));
    }

    private bool Take(DueEvent due)
    {
        dues.RemoveAll(known => known.Due == due.Due && known.Chick == due.Chick);
        dues.Add(new(due.At, due.Due, due.Chick, due.DueAt, due.Text));
        return true;
    }

    private bool Take(ScanEvent scan) => scan.Taken switch
    {
        "misread" or "unreadable" => Show(new(PanStep.Misread, scan.At, scan.Code, Text: scan.Text)),
        "card" => Show(new(PanStep.Card, scan.At, Text: scan.Code)),
        "fed" => false,
        // The code of a chick that lies there already: it is being weighed on.
        _ when pan is { Step: PanStep.Weighing, Chick: null } => Show(pan with { Chick = scan.Code, At = scan.At }),
        _ => Show(new(PanStep.Scanned, scan.At, scan.Code)),
    };

    private bool Take(TareEvent tare)
    {
        // A tare after a decision does not wipe off what was decided; the weight stands until the next chick.
        return pan.Step is PanStep.Start or PanStep.Tared or PanStep.Card or PanStep.Misread or PanStep.Noted
            && Show(new(PanStep.Tared, tare.At, TareGrams: tare.Grams));
    }

    private bool Take(PlacedEvent placed) =>
        Show(new(PanStep.Weighing, placed.At, placed.Chick ?? (pan.Step == PanStep.Scanned ? pan.Chick : null)));

    private bool Take(ProbeEvent probe)
    {
        batch = (batch ?? new(null, "unmeasured", null, null, false, probe.At, null, null)) with
        {
            Celsius = probe.Celsius,
            UncertaintyCelsius = probe.UncertaintyCelsius,
            Settled = probe.Settled,
            At = probe.At,
        };
        return true;
    }

    private bool Take(BatchEvent state)
    {
        batch = new(
            state.Batch, state.State, state.Celsius ?? batch?.Celsius, batch?.UncertaintyCelsius, batch?.Settled ?? false, state.At, state.DiscardAt, state.BelowBandAt);
        return true;
    }

    // The same finding of the same chick again is the newer word on it.
    private bool Take(FindingEvent finding)
    {
        findings.RemoveAll(known => known.Chick == finding.Chick && known.Finding == finding.Finding);
        findings.Add(new(finding.At, finding.Chick, finding.Finding, finding.Severity, finding.Text, finding.Grams, finding.ExpectedGrams, finding.LowGrams, finding.HighGrams));
        return true;
    }

    private bool Take(DeviceEvent device)
    {
        var place = devices.FindIndex(known => known.Device == device.Device);
        if (place < 0)
            return false;
        devices[place] = devices[place] with { State = device.State, Since = device.At, Detail = device.Detail, Cause = device.Cause };
        return true;
    }

    private bool Take(AlertEvent alert)
    {
        if (alerts.Count == AlertsKept)
            alerts.RemoveAt(0);
        alerts.Add(new(++alertIds, alert.At, alert.Alert, alert.Chick, alert.Device, alert.Text, alert.Grams));
        if (alert.Alert is "not-stored" or "lost" && alert.Chick is not null)
            pan = new(alert.Alert == "lost" ? PanStep.Lost : PanStep.NotStored, alert.At, alert.Chick, alert.Grams, Text: alert.Text);
        else if (alert.Alert == "code-expired")
            pan = new(PanStep.Tared, alert.At, Text: alert.Text);
        return true;
    }
}
