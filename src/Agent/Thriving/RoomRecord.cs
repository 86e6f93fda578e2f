using CaptureAgent.Store;

namespace CaptureAgent.Agent.Thriving;

/// <summary>The growth record of a room, as a review needs it.</summary>
/// <param name="Chicks">Without those that were gone by then.</param>
/// <param name="Doubts">What the register says and the weights make doubtful.</param>
internal sealed record RoomRecord(IReadOnlyList<WatchedChick> Chicks, IReadOnlyList<RegisterDoubt> Doubts)
{
    /// <summary>Longer than any parrot grows: older weights say nothing of tomorrow's.</summary>
    public const int DaysRead = 150;

    /// <summary>Chicks that left no longer ago still tell of the room's noise.</summary>
    private const int DaysGone = 14;

    /// <summary>Feeds by hand that are older say nothing of a chick's stage.</summary>
    private const int DaysFed = 30;

    /// <summary>The room up to a nursery day.</summary>
    public static RoomRecord Read(CaptureStore store, DateOnly to)
    {
        var from = to.AddDays(-DaysRead);
        var weights = new Dictionary<string, List<MorningWeight>>(StringComparer.Ordinal);
        foreach (var row in store.GrowthWeights(from, to))
            Add(weights, row.Chick, new MorningWeight(row.Day, row.Milligrams / 1000m, row.UncertaintyMilligrams / 1000m, row.Decimals));
        var weaning = store.Observations(from: from, to: to).Where(row => row.Kind == ObservationKinds.Weaning)
            .GroupBy(row => row.Chick).ToDictionary(group => group.Key, group => group.Min(row => row.Day), StringComparer.Ordinal);
        var fed = store.LastFeeds(new DateTimeOffset(to.AddDays(-DaysFed), TimeOnly.MinValue, TimeSpan.Zero)).ToDictionary(last => last.Chick, last => last.Day, StringComparer.Ordinal);
        List<WatchedChick> chicks = [];
        List<RegisterDoubt> doubts = [];
        foreach (var chick in store.ChicksNotLeftBefore(to.AddDays(-DaysGone)))
        {
            var known = weights.GetValueOrDefault(chick.Code);
            if (Watched(chick, known, Day(weaning), Day(fed), to) is { } watched)
                chicks.Add(watched);
            if (RegisterDoubt.Of(chick, known ?? [], to) is { } doubt)
                doubts.Add(doubt);

            DateOnly? Day(Dictionary<string, DateOnly> days) => days.TryGetValue(chick.Code, out var day) ? day : null;
        }

        return new RoomRecord(chicks, doubts);
    }

    /// <summary>Null for a chick that is not hatched yet, or long gone.</summary>
    public static WatchedChick? Watched(Chick chick, IReadOnlyList<MorningWeight>? weights, DateOnly? weaning, DateOnly? lastFed, DateOnly to)
    {
        var known = weights ?? [];
        var hatched = RegisterDoubt.IsHatchDateWrong(chick, known) ? null : chick.Hatched;
        if (hatched > to || chick.Left < to.AddDays(-DaysGone))
            return null;
        return known.Count > 0 && to.DayNumber - known[^1].Day.DayNumber <= Absences.TakenToHaveLeft || Absences.IsHere(hatched, chick.Left, null, to)
            ? new WatchedChick(chick.Code, chick.Species, hatched, chick.Clutch, chick.Left, known, weaning, lastFed)
            : null;
    }

    // The last of a day counts, should two stand.
    private static void Add(Dictionary<string, List<MorningWeight>> weights, string code, MorningWeight weight)
    {
        if (!weights.TryGetValue(code, out var known))
            weights[code] = known = [];
        if (known.Count > 0 && known[^1].Day == weight.Day)
            known[^1] = weight;
        else
            known.Add(weight);
    }
}
