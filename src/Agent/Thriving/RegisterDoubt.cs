using CaptureAgent.Store;

namespace CaptureAgent.Agent.Thriving;

/// <summary>What the register says of a chick and its weights make doubtful: a chick must not drop out of the morning for a slip of the pen.</summary>
/// <param name="Text">For a keeper, with what to do.</param>
internal readonly record struct RegisterDoubt(string Chick, string Text)
{
    /// <summary>Eggs are registered ahead, by no more days than this.</summary>
    private const int LongestAhead = 60;

    /// <summary>Days of age from which on no parrot gains so much, as a ratio.</summary>
    private const int GrownUp = 200;

    private const decimal Gained = 1.3m;

    /// <summary>A hatch date that its weights contradict: it is watched without one.</summary>
    public static bool IsHatchDateWrong(Chick chick, IReadOnlyList<MorningWeight> weights) => IsAfter(chick, weights) || IsTooLongAgo(chick, weights);

    /// <param name="weights">One a day, oldest first, of the days that are read.</param>
    public static RegisterDoubt? Of(Chick chick, IReadOnlyList<MorningWeight> weights, DateOnly day)
    {
        if (chick.Left is not null)
            return null;
        var text = weights.Count == 0 && chick.Hatched > day.AddDays(LongestAhead) ? $"is to hatch on {Date(chick.Hatched)} by the register. Is that date right?"
            : IsAfter(chick, weights) ? $"has hatched on {Date(chick.Hatched)} by the register, after its first weight of {Date(weights[0].Day)}: it is watched without an age. Correct the date."
            : IsTooLongAgo(chick, weights) ? $"has hatched on {Date(chick.Hatched)} by the register, but grows as no bird of that age does: it is watched without an age. Is the year right?"
            : Unseen(chick, weights, day);
        return text is null ? null : new RegisterDoubt(chick.Code, $"{chick.Code} {text}");
    }

    private static string? Unseen(Chick chick, IReadOnlyList<MorningWeight> weights, DateOnly day)
    {
        var since = weights.Count > 0 ? weights[^1].Day : chick.Hatched;
        if (since is not { } known || day.DayNumber - known.DayNumber is not (> Absences.TakenToHaveLeft and <= RoomRecord.DaysRead and var days))
            return null;
        var what = weights.Count > 0 ? FormattableString.Invariant($"was last weighed {days} days ago, on {Date(known)}") : $"has hatched on {Date(known)} and was never weighed";
        return $"{what}, and is not marked as left: it is not watched any more. Weigh it, or enter the day on which it left.";
    }

    private static bool IsAfter(Chick chick, IReadOnlyList<MorningWeight> weights) => weights.Count > 0 && chick.Hatched > weights[0].Day;

    private static bool IsTooLongAgo(Chick chick, IReadOnlyList<MorningWeight> weights) =>
        weights.Count > 0 && weights[0].Day.DayNumber - chick.Hatched?.DayNumber > GrownUp && weights[^1].Grams > Gained * weights[0].Grams;

    private static string Date(DateOnly? day) => FormattableString.Invariant($"{day:yyyy-MM-dd}");
}
