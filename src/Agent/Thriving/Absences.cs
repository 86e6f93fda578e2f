namespace CaptureAgent.Agent.Thriving;

/// <summary>Chicks without a weight of the day.</summary>
internal static class Absences
{
    /// <summary>A chick that nobody has weighed for longer is taken to have left, whatever the register says.</summary>
    public const int TakenToHaveLeft = 30;

    private const int Overdue = 3;

    /// <summary>Whether a chick is one of the room on a day.</summary>
    public static bool IsHere(DateOnly? hatched, DateOnly? left, DateOnly? lastWeight, DateOnly day) =>
        !(left <= day) && !(hatched > day) &&
        ((lastWeight ?? hatched) is not { } known || day.DayNumber - known.DayNumber <= TakenToHaveLeft);

    public static bool IsHere(ChickWatch watch, DateOnly day) => IsHere(watch.Chick.Hatched, watch.Chick.Left, watch.LastSeen, day);

    public static IEnumerable<GrowthFinding> Of(MorningReview morning)
    {
        foreach (var watch in morning.Watches)
        {
            if (watch.LastSeen == morning.Day || !IsHere(watch, morning.Day) || watch.AgeOn(morning.Day) == 0)
                continue;
            var days = watch.LastSeen is { } last ? morning.Day.DayNumber - last.DayNumber : (int?)null;
            yield return Sentences.NotWeighed(watch, morning, days, days >= Overdue && watch.Stage <= Stage.Growing ? Severities.Look : Severities.Note);
        }
    }
}
