namespace CaptureAgent.Agent.Feeding;

/// <summary>How much formula a chick takes in a day, as a share of its weight.</summary>
/// <remarks>
/// 83.1 % at day 3, 30.1 % at day 45, 19.6 % at day 92: hand-reared Spix's macaws, Groffen, Watson, Hammer and Raidal, "Analysis of growth rate variables
/// and postfeeding regurgitation", J. Avian Med. Surg. 2008. Between them along straight lines of the logarithm; before and after, the nearest.
/// </remarks>
internal static class DailyIntake
{
    private static readonly (int Day, double Share)[] Published = [(3, 0.831), (45, 0.301), (92, 0.196)];

    public static double ShareAt(int ageDays)
    {
        var (before, after) = (Published[0], Published[^1]);
        foreach (var point in Published)
        {
            if (point.Day <= ageDays)
                before = point;
        }

        for (var i = Published.Length - 1; i >= 0; i--)
        {
            if (Published[i].Day >= ageDays)
                after = Published[i];
        }

        if (before.Day >= after.Day)
            return ageDays <= Published[0].Day ? Published[0].Share : before.Share;
        return before.Share * Math.Pow(after.Share / before.Share, (ageDays - before.Day) / (double)(after.Day - before.Day));
    }

    /// <summary>One feed in grams: the day's share among its feeds, and no more than the crop may hold.</summary>
    /// <param name="mostPercent">Of body weight; the whole feed where the age is not known.</param>
    public static double FeedGrams(double grams, int? ageDays, int feedsADay, double mostPercent)
    {
        var most = mostPercent / 100;
        return grams * (ageDays is { } age ? Math.Min(most, ShareAt(age) / feedsADay) : most);
    }
}
