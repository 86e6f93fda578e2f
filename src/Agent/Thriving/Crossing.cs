using MathNet.Numerics.Distributions;

namespace CaptureAgent.Agent.Thriving;

/// <summary>A fall through the centiles of the nursery's own chicks of the species: slow, but longer than a test for a sudden shortfall looks back.</summary>
/// <param name="Before">The chick's standard score among them some days ago, by its level without the day's noise.</param>
/// <param name="Now">The same today, among the same chicks.</param>
/// <param name="Gain">Its gain between the two among theirs at the same ages, as a standard score.</param>
/// <param name="Days">Between the two.</param>
/// <param name="Others">The chicks it is compared with, itself left out.</param>
internal readonly record struct Crossing(double Before, double Now, double Gain, int Days, int Others)
{
    /// <summary>Fewer have no centiles.</summary>
    private const int FewestOthers = 5;

    private const int LeastDays = 7;

    /// <summary>Mornings without a look before it is told again.</summary>
    private const int Quiet = 4;

    /// <summary>Weights this many days apart are of the same age.</summary>
    private const int SameAge = 1;

    /// <summary>No nursery's chicks are more alike, in ln(weight); else six mates by chance would make a fall of a trifle.</summary>
    private const double LeastSpread = 0.06, LeastGainSpread = 0.03;

    /// <summary>The width of one centile space on charts with nine lines (Cole, BMJ 308:641, 1994; from memory): a note; two of them: a look.</summary>
    private const double Space = 0.67;

    /// <summary>And so far below the others' gains: among a few chicks the lines alone wander. For a note; for a look.</summary>
    private const double LittleGain = -1.3, LeastGain = -2.5;

    /// <summary>Far enough to be told; how urgently is <see cref="IsLook"/>.</summary>
    public bool IsTold => Before - Now >= Space && Gain <= LittleGain;

    /// <summary>Who is above the middle of the others after all is no concern of today.</summary>
    public bool IsLook => Before - Now >= 2 * Space && Gain <= LeastGain && Now < 0;

    public double CentileBefore => 100 * Normal.CDF(0, 1, Before);

    public double CentileNow => 100 * Normal.CDF(0, 1, Now);

    /// <summary>Null where the species is not registered, the chick too new, or too few others were weighed at both ages.</summary>
    public static Crossing? Of(ChickWatch watch, MorningReview morning) => Of(watch, morning, 0);

    /// <summary>Whether a fall that is to be looked at was none on the mornings before: told each morning, one would use up what others need.</summary>
    public static bool IsNews(ChickWatch watch, MorningReview morning)
    {
        for (var ago = 1; ago <= Quiet; ago++)
        {
            if (Of(watch, morning, ago) is { IsLook: true })
                return false;
        }

        return true;
    }

    private static Crossing? Of(ChickWatch watch, MorningReview morning, int ago)
    {
        var day = morning.Day.AddDays(-ago);
        if (watch.Chick.Species is not { } species || watch.AgeOn(day) is not { } age || watch.LevelOn(day) is not { } level || watch.LevelBefore(ago + LeastDays) is not { } before)
            return null;
        var days = day.DayNumber - before.Day.DayNumber;
        double n = 0, then = 0, thenSquares = 0, now = 0, nowSquares = 0, gains = 0, gainSquares = 0;
        foreach (var other in morning.Watches)
        {
            if (other == watch || !species.Equals(other.Chick.Species, StringComparison.OrdinalIgnoreCase) ||
                LogAt(other.Chick, age - days, day) is not { } first || LogAt(other.Chick, age, day) is not { } last)
                continue;
            var gain = last - first;
            (n, then, thenSquares, now, nowSquares) = (n + 1, then + first, thenSquares + first * first, now + last, nowSquares + last * last);
            (gains, gainSquares) = (gains + gain, gainSquares + gain * gain);
        }

        if (n < FewestOthers)
            return null;
        return new Crossing(
            Score(before.Level, then, thenSquares, n, LeastSpread), Score(level, now, nowSquares, n, LeastSpread),
            Score(level - before.Level, gains, gainSquares, n, LeastGainSpread), days, (int)n);
    }

    private static double Score(double value, double sum, double squares, double n, double least)
    {
        var spread = Math.Sqrt(Math.Max((squares - sum * sum / n) / (n - 1), 0));
        return (value - sum / n) / Math.Max(spread, least);
    }

    // ln(weight) at an age, from what was known on the day.
    private static double? LogAt(WatchedChick chick, int age, DateOnly known)
    {
        if (chick.Hatched is not { } hatched)
            return null;
        var day = hatched.AddDays(age);
        var (low, high) = (0, chick.Weights.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (chick.Weights[middle].Day < day)
                low = middle + 1;
            else
                high = middle;
        }

        MorningWeight? nearest = null;
        foreach (var i in (ReadOnlySpan<int>)[low, low - 1])
        {
            if (i >= 0 && i < chick.Weights.Count && chick.Weights[i].Day <= known && Off(chick.Weights[i]) <= SameAge && (nearest is not { } best || Off(chick.Weights[i]) < Off(best)))
                nearest = chick.Weights[i];
        }

        return nearest is { } weight ? Math.Log((double)weight.Grams) : null;

        int Off(MorningWeight each) => Math.Abs(each.Day.DayNumber - day.DayNumber);
    }
}
