using CaptureAgent.Agent.Events;
using CaptureAgent.Protocol.Codes;

namespace CaptureAgent.Agent.Round;

/// <summary>What a scanned line does: a chick's code finds its load, a card its task.</summary>
internal sealed class Scanning(
    CodeRules rules, Identity identity, Cards cards, DecisionMaker decisions, ProbeCards probes, IReadOnlyList<IScaleRound> rounds, bool feedFollowsWeighing)
{
    /// <summary>A fed card this soon after an unused code means that chick.</summary>
    private static readonly TimeSpan FedAfterCode = TimeSpan.FromSeconds(10);

    public DateTimeOffset? Due =>
        Deadline.Earliest(identity.Expires, cards.FedExpires, cards.CropExpires, cards.ReweighExpires, cards.CheckExpires, cards.SeenExpires);

    public void Fire(DateTimeOffset at, List<StationEvent> events)
    {
        if (identity.Expires <= at && identity.Take() is { } waited && !IsForsaken(waited, at, events))
            events.Add(new AlertEvent(at, "code-expired", waited.Code, null, $"{waited.Code} was scanned and no chick was put on the pan: scan it again."));
        if (cards.FedExpires <= at)
            DropFed(at, events);
        if (cards.CropExpires <= at)
            DropCrop(at, events);

        if (cards.ReweighExpires <= at)
        {
            cards.ReweighAt = null;
            events.Add(new AlertEvent(at, "reweigh-dropped", null, null, "The re-weigh card was scanned and no chick's code came within a minute."));
        }

        if (cards.SeenExpires <= at)
            DropSeen(at, events);
        if (cards.CheckExpires <= at)
        {
            cards.CheckAt = null;
            events.Add(new AlertEvent(at, "check-dropped", null, null, "The check card was scanned and no mass was put on the pan within a minute: scan it again, then put the mass on."));
        }
    }

    // Nothing more will come for this code: what came and went while it waited may have been its chick.
    private bool IsForsaken((string Code, DateTimeOffset At) waited, DateTimeOffset at, List<StationEvent> events)
    {
        foreach (var round in rounds)
        {
            if (round.Forsake(waited, at, events))
                return true;
        }

        return false;
    }

    private void DropSeen(DateTimeOffset at, List<StationEvent> events)
    {
        var kind = cards.Seen!.Value.Kind;
        cards.Seen = null;
        events.Add(new AlertEvent(at, "observation-dropped", null, null, $"The card {kind} was scanned and no chick's code came within a minute: nothing is written down."));
    }

    public void OnLine(DateTimeOffset at, string device, string line, List<StationEvent> events)
    {
        if (identity.IsRepeat(line, at))
            return;
        switch (rules.Classify(line))
        {
            case not CodeKind.Card when cards.FedAt is not null && decisions.IsBrooder(line):
            case CodeKind.Chick:
                OnCode(at, device, line, events);
                break;
            case CodeKind.Card:
                OnCard(at, device, line, events);
                break;
            case CodeKind.BadCheck:
                events.Add(new ScanEvent(at, device, line, "misread", "The check character does not fit: scan the code again."));
                break;
            default:
                events.Add(new ScanEvent(at, device, line, "unreadable", "This is no chick's code and no card: scan again, or check the code pattern in station.json."));
                break;
        }
    }

    /// <param name="line">As a transponder reader printed it.</param>
    public void OnTransponder(DateTimeOffset at, string device, string line, List<StationEvent> events)
    {
        var isRead = Transponder.TryRead(line, out var number);
        if (identity.IsRepeat(isRead ? number : line, at))
            return;
        if (!isRead)
        {
            events.Add(new ScanEvent(at, device, line, "unreadable", "This is no transponder's number (15 digits, the first three not 000): hold the reader closer and read again."));
            return;
        }

        switch (decisions.ChicksOfBand(number, at))
        {
            case [var chick]:
                OnCode(at, device, chick, events);
                break;
            case []:
                OnCode(at, device, number, events);
                break;
            case var several:
                events.Add(new ScanEvent(at, device, number, "unreadable", $"The register gives this transponder to {string.Join(" and ", several)}: scan the chick's card, and mend the register."));
                break;
        }
    }

    private void OnCode(DateTimeOffset at, string device, string code, List<StationEvent> events)
    {
        if (cards.FedAt is not null)
        {
            cards.FedAt = null;
            events.Add(new ScanEvent(at, device, code, "fed", decisions.LeftOut(code, at)));
            decisions.FeedNamed(code, at, events);
            return;
        }

        if (cards.CropAt is not null)
        {
            cards.CropAt = null;
            events.Add(new ScanEvent(at, device, code, "crop", null));
            decisions.SeeFull(code, at, events);
            return;
        }

        if (cards.Seen is { } seen)
        {
            cards.Seen = null;
            events.Add(new ScanEvent(at, device, code, "observed", null));
            decisions.Observe(code, seen.Kind, at, events);
            return;
        }

        if (cards.ReweighAt is not null)
            cards.Permit(code, at);
        var isPermitted = cards.IsPermitted(code, at);
        var place = events.Count;
        var taken = "waits";
        foreach (var round in rounds)
        {
            if (round.TryName(code, at, events) is { } done)
            {
                taken = done;
                break;
            }
        }

        if (taken == "waits" && feedFollowsWeighing && cards.ReweighAt is null && !isPermitted && decisions.IsReadyToBeFed(code, at))
        {
            events.Insert(place, new ScanEvent(at, device, code, "fed", null));
            decisions.Feed(code, at, FeedWays.Scan, events);
            return;
        }

        if (taken == "waits")
        {
            if (identity.Waiting is { } before && before.Code != code)
                IsForsaken(before, at, events);
            identity.Wait(code, at);
        }

        events.Insert(place, new ScanEvent(at, device, code, taken, null));
        decisions.BeginRound(code, at, events);
    }

    private void OnCard(DateTimeOffset at, string device, string line, List<StationEvent> events)
    {
        var card = cards.Find(line);
        var isForWaiting = identity.Waiting is { } unused && at - unused.At <= FedAfterCode;
        events.Add(card == Card.Unknown
            ? new ScanEvent(at, device, line, "unreadable", "There is no such card.")
            : new ScanEvent(at, device, line, "card", probes.Guide(card, at) ?? (isForWaiting ? null : Question(card))));
        switch (card)
        {
            case Card.Fed when isForWaiting:
                decisions.FeedNamed(identity.Take()!.Value.Code, at, events);
                break;
            case Card.Fed:
                DropCrop(at, events);
                cards.FedAt = at;
                break;
            case Card.Crop when isForWaiting:
                decisions.SeeFull(identity.Take()!.Value.Code, at, events);
                break;
            case Card.Crop:
                DropFed(at, events);
                cards.CropAt = at;
                break;
            case Card.Chore:
                decisions.Done(cards.ChoreOf(line)!, at, events);
                break;
            case Card.Reweigh:
                cards.ReweighAt = at;
                break;
            case Card.Undo:
                decisions.Undo(at, events);
                break;
            case Card.Tare:
                var tared = false;
                foreach (var round in rounds)
                    tared |= round.TareNow(at, events);
                if (!tared)
                    events.Add(new AlertEvent(at, "no-reading", null, null, "The scale cannot be read now, so there is no tare: wait until it shows a weight and scan the card again."));
                break;
            case Card.Check when rounds.Any(round => round.CanCheck):
                cards.CheckAt = at;
                break;
            case Card.Check:
                events.Add(new AlertEvent(at, "no-check-mass", null, null, "No scale of this station has a check mass: write what yours weighs into station.json, at the scale, as in \"checkMassGrams\": 200."));
                break;
            // The code goes on waiting: what is seen of a chick is seen before or after its weighing.
            case Card.Observation when identity.Waiting is { } waiting && at - waiting.At <= FedAfterCode:
                decisions.Observe(waiting.Code, cards.KindOf(line)!, at, events);
                break;
            case Card.Observation:
                if (cards.Seen is not null)
                    DropSeen(at, events);
                cards.Seen = (cards.KindOf(line)!, at);
                break;
            case Card.Batch:
                decisions.Begun(probes.BeginBatch(at, events));
                break;
        }
    }

    private void DropFed(DateTimeOffset at, List<StationEvent> events)
    {
        if (cards.FedAt is null)
            return;
        cards.FedAt = null;
        events.Add(new AlertEvent(at, "fed-dropped", null, null, "The fed card was scanned and no chick's code followed within a minute: no feed is written down."));
    }

    private void DropCrop(DateTimeOffset at, List<StationEvent> events)
    {
        if (cards.CropAt is null)
            return;
        cards.CropAt = null;
        events.Add(new AlertEvent(at, "crop-dropped", null, null, "The crop card was scanned and no chick's code followed within a minute: no crop is written down."));
    }

    private static string? Question(Card card) => card switch
    {
        Card.Fed => "Who was fed? Scan the chick, or its brooder, within a minute.",
        Card.Crop => "Whose crop is full? Scan the chick within a minute.",
        _ => null,
    };
}
