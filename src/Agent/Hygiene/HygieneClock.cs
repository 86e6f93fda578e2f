using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;

namespace CaptureAgent.Agent.Hygiene;

/// <summary>Says at the beginning of a round which chores are due, and between clutches that the pan is.</summary>
internal sealed class HygieneClock(HygieneOptions options, CardOptions cards, NurseryDay days)
{
    /// <summary>After so long without a chick the next one begins a round (common practice, no source).</summary>
    private static readonly TimeSpan Pause = TimeSpan.FromHours(1);

    private DateTimeOffset? lastChickAt;
    private string? clutch;
    private DateTimeOffset clutchAt;

    /// <summary>A chick's code was scanned for the pan.</summary>
    public void OnChick(string code, DateTimeOffset at, Ledger ledger, List<StationEvent> events)
    {
        if (lastChickAt is not { } last || at - last > Pause || days.Of(last) != days.Of(at))
            BeginRound(at, ledger, events);
        lastChickAt = at;
        if (options.PanBetweenClutches && ledger.Find(code)?.Clutch is { Length: > 0 } its)
            OnClutch(its, at, ledger, events);
    }

    /// <summary>The chores that are due, with the moment since when; null: never recorded.</summary>
    public IEnumerable<(string Chore, DateTimeOffset? Since)> DueAt(DateTimeOffset at, Ledger ledger)
    {
        foreach (var (chore, every) in Clocks(at, ledger))
        {
            var due = ledger.LastDone(chore) + every;
            if (due is null || due <= at)
                yield return (chore, due);
        }
    }

    public string TextOf(string chore) => Chore.TextOf(chore, chore switch
    {
        Chore.Wash => cards.Washed,
        Chore.Syringe => cards.Syringe,
        Chore.Pan => cards.Pan,
        _ => cards.Bowls,
    });

    private void BeginRound(DateTimeOffset at, Ledger ledger, List<StationEvent> events)
    {
        foreach (var (chore, since) in DueAt(at, ledger))
            events.Add(new DueEvent(at, chore, null, since, TextOf(chore)));
    }

    private void OnClutch(string its, DateTimeOffset at, Ledger ledger, List<StationEvent> events)
    {
        var before = clutch;
        var since = clutchAt;
        (clutch, clutchAt) = (its, at);
        if (before is not null && before != its && !(ledger.LastDone(Chore.Pan) >= since))
            events.Add(new DueEvent(at, Chore.Pan, null, null, TextOf(Chore.Pan)));
    }

    private IEnumerable<(string Chore, TimeSpan Every)> Clocks(DateTimeOffset at, Ledger ledger)
    {
        if (options.WashHours > 0)
            yield return (Chore.Wash, TimeSpan.FromHours(options.WashHours));
        if (options.SyringeDays > 0)
            yield return (Chore.Syringe, TimeSpan.FromDays(options.SyringeDays));
        if (options.BowlsHours > 0 && ledger.Chicks.Any(chick => IsWeaning(chick, days.Of(at), ledger)))
            yield return (Chore.Bowls, TimeSpan.FromHours(options.BowlsHours));
    }

    private bool IsWeaning(Store.Chick chick, DateOnly day, Ledger ledger) => !(chick.Left <= day)
        && (ledger.WeaningOf(chick.Code) is not null || (chick.Hatched is { } hatched && day.DayNumber - hatched.DayNumber >= options.BowlsFromDay));
}
