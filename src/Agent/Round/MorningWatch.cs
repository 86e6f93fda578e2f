using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;

namespace CaptureAgent.Agent.Round;

/// <summary>Reviews the morning as it goes: what a weight just taken says of its chick, and of the room.</summary>
internal sealed class MorningWatch(Ledger ledger)
{
    private readonly HashSet<(string? Chick, string Kind, string Severity)> told = [];
    private RoomReview? before;
    private DateOnly day;

    /// <summary>Findings of the chick, of the one it seems to be exchanged with and of the room that were not told yet today.</summary>
    public IEnumerable<GrowthFinding> After(string code, DateOnly today)
    {
        var morning = Review(today);
        var mates = morning.Exchanged.Where(pair => pair.A.Watch.Chick.Code == code || pair.B.Watch.Chick.Code == code)
            .SelectMany(pair => (string[])[pair.A.Watch.Chick.Code, pair.B.Watch.Chick.Code]).ToList();
        return Findings.Of(morning).Where(finding =>
            finding.Kind != FindingKinds.NotWeighed && (finding.Chick is null || finding.Chick == code || mates.Contains(finding.Chick)) &&
            told.Add((finding.Chick, finding.Kind, finding.Severity)));
    }

    /// <summary>Whether the chick is being weaned by a card that its course does not bear out.</summary>
    public bool IsWeaningDoubtful(string code, DateOnly today) => Review(today).Watches.Any(watch => watch.Chick.Code == code && watch.IsWeaningDoubtful);

    private MorningReview Review(DateOnly today)
    {
        if (before is null || day != today)
            Begin(today);
        List<(string, MorningWeight)> weights = [];
        foreach (var chick in ledger.Chicks)
        {
            if (ledger.MorningWeight(chick.Code, today) is { } weight)
                weights.Add((chick.Code, Morning(weight)));
        }

        return before!.Preview(today, weights);
    }

    private void Begin(DateOnly today)
    {
        day = today;
        told.Clear();
        List<WatchedChick> chicks = [];
        foreach (var chick in ledger.Chicks)
        {
            var weights = Known(chick.Code, today);
            if (RoomRecord.Watched(chick, weights, ledger.WeaningOf(chick.Code), ledger.LastFeed(chick.Code)?.Day, today) is { } watched)
                chicks.Add(watched);
        }

        before = RoomReview.Of(chicks, PublishedGrowth.Instance, today.AddDays(-1), Tuning.Usual);
    }

    private List<MorningWeight> Known(string code, DateOnly today)
    {
        var weights = ledger.WeightsOf(code);
        var from = weights.Count;
        while (from > 0 && today.DayNumber - weights[from - 1].Day.DayNumber <= RoomRecord.DaysRead)
            from--;
        List<MorningWeight> known = [];
        for (; from < weights.Count && weights[from].Day < today; from++)
            known.Add(Morning(weights[from]));
        return known;
    }

    private static MorningWeight Morning(in Weight weight) => new(weight.Day, weight.Grams, weight.UncertaintyGrams, weight.Decimals);
}
