using CaptureAgent.Agent.Events;
using CaptureAgent.Protocol.Codes;

namespace CaptureAgent.Agent.Round;

/// <summary>What a scanned line does: a chick's code finds its load, a card its task.</summary>
internal sealed class Scanning(CodeRules rules, Identity identity, Cards cards, DecisionMaker decisions, IReadOnlyList<Round> rounds, ProbeCards probes)
{
    /// <summary>A fed card this soon after an unused code means that chick.</summary>
    private static readonly TimeSpan FedAfterCode = TimeSpan.FromSeconds(10);

    public DateTimeOffset? Due => Deadline.Earliest(identity.Expires, cards.FedExpires, cards.ReweighExpires, cards.CheckExpires);

    public void Fire(DateTimeOffset at, List<StationEvent> events)
    {
        if (identity.Expires <= at && identity.Take() is { } waited)
            events.Add(new AlertEvent(at, "code-expired", waited.Code, null, $"{waited.Code} was scanned and no chick was put on the pan: scan it again."));
        if (cards.FedExpires <= at)
        {
            cards.FedAt = null;
            events.Add(new AlertEvent(at, "fed-dropped", null, null, "The fed card was scanned and no chick's code came within a minute: no feed is written down."));
        }

        if (cards.ReweighExpires <= at)
        {
            cards.ReweighAt = null;
            events.Add(new AlertEvent(at, "reweigh-dropped", null, null, "The re-weigh card was scanned and no chick's code came within a minute."));
        }

        if (cards.CheckExpires <= at)
        {
            cards.CheckAt = null;
            events.Add(new AlertEvent(at, "check-dropped", null, null, "The check card was scanned and no mass was put on the pan within a minute: scan it again, then put the mass on."));
        }
    }

    public void OnLine(DateTimeOffset at, string device, string line, List<StationEvent> events)
    {
        if (identity.IsRepeat(line, at))
            return;
        switch (rules.Classify(line))
        {
            case CodeKind.Card:
                OnCard(at, device, line, events);
                break;
            case CodeKind.Chick:
                OnCode(at, device, line, events);
                break;
            case CodeKind.BadCheck:
                events.Add(new ScanEvent(at, device, line, "misread", "The check character does not fit: scan the code again."));
                break;
            default:
                events.Add(new ScanEvent(at, device, line, "unreadable", "This is no chick's code and no card: scan again, or check the code pattern in station.json."));
                break;
        }
    }

    private void OnCode(DateTimeOffset at, string device, string code, List<StationEvent> events)
    {
        if (cards.FedAt is not null)
        {
            cards.FedAt = null;
            events.Add(new ScanEvent(at, device, code, "fed", null));
            decisions.Feed(code, at, events);
            return;
        }

        if (cards.ReweighAt is not null)
            cards.Permit(code, at);
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

        if (taken == "waits")
            identity.Wait(code, at);
        events.Insert(place, new ScanEvent(at, device, code, taken, null));
    }

    private void OnCard(DateTimeOffset at, string device, string line, List<StationEvent> events)
    {
        var card = cards.Find(line);
        events.Add(card == Card.Unknown
            ? new ScanEvent(at, device, line, "unreadable", "There is no such card.")
            : new ScanEvent(at, device, line, "card", probes.Guide(card, at)));
        switch (card)
        {
            case Card.Fed when identity.Waiting is { } waiting && at - waiting.At <= FedAfterCode:
                identity.Take();
                decisions.Feed(waiting.Code, at, events);
                break;
            case Card.Fed:
                cards.FedAt = at;
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
            case Card.Batch:
                probes.BeginBatch(at, events);
                break;
        }
    }
}
