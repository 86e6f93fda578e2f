using CaptureAgent.Store;

namespace CaptureAgent.Agent.Thriving;

/// <summary>The growth record of a room, as a review needs it.</summary>
internal static class RoomRecord
{
    /// <summary>Longer than any parrot grows: older weights say nothing of tomorrow's.</summary>
    public const int DaysRead = 150;

    /// <summary>Chicks that left no longer ago still tell of the room's noise.</summary>
    private const int DaysGone = 14;

    /// <summary>The chicks of the room up to a nursery day, without those that were gone by then.</summary>
    public static IReadOnlyList<WatchedChick> Read(CaptureStore store, DateOnly to)
    {
        var from = to.AddDays(-DaysRead);
        var weights = new Dictionary<string, List<MorningWeight>>(StringComparer.Ordinal);
        foreach (var row in store.GrowthWeights(from, to))
            Add(weights, row.Chick, new MorningWeight(row.Day, row.Milligrams / 1000m, row.UncertaintyMilligrams / 1000m, row.Decimals));
        var weaning = store.Observations(from: from, to: to).Where(row => row.Kind == ObservationKinds.Weaning)
            .GroupBy(row => row.Chick).ToDictionary(group => group.Key, group => group.Min(row => row.Day), StringComparer.Ordinal);
        List<WatchedChick> chicks = [];
        foreach (var chick in store.ChicksNotLeftBefore(to.AddDays(-DaysGone)))
        {
            if (Watched(chick, weights.GetValueOrDefault(chick.Code), weaning.TryGetValue(chick.Code, out var day) ? day : null, to) is { } watched)
                chicks.Add(watched);
        }

        return chicks;
    }

    /// <summary>Null for a chick that is not hatched yet, or long gone.</summary>
    public static WatchedChick? Watched(Chick chick, IReadOnlyList<MorningWeight>? weights, DateOnly? weaning, DateOnly to)
    {
        if (chick.Hatched > to || chick.Left < to.AddDays(-DaysGone))
            return null;
        var known = weights ?? [];
        return known.Count > 0 && to.DayNumber - known[^1].Day.DayNumber <= Absences.TakenToHaveLeft || Absences.IsHere(chick.Hatched, chick.Left, null, to)
            ? new WatchedChick(chick.Code, chick.Species, chick.Hatched, chick.Clutch, chick.Left, known, weaning)
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
