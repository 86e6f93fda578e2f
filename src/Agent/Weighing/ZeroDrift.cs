namespace CaptureAgent.Agent.Weighing;

/// <summary>How fast this scale's zero creeps, as the tares before and after earlier weighings showed it.</summary>
/// <remarks>
/// The tare is followed until the load comes; from there to the decision nobody sees the zero. What it may have moved meanwhile is a part of the weight's uncertainty: the root mean
/// square rate of the last comparisons, what their own uncertainty makes of it taken off, times those seconds (JCGM 100, 4.3 and F.2.4.5). Before there are comparisons a
/// tenth of a division a minute is presumed (common practice, no source; a creep under load of half a division in half an hour, OIML R 76-1 3.9.4.1, would be less; from memory).
/// </remarks>
internal sealed class ZeroDrift
{
    /// <summary>Divisions a second.</summary>
    private const double Presumed = 0.1 / 60;

    /// <summary>The presumption counts as much as so many comparisons.</summary>
    private const int PresumedWeight = 4;

    private const int Kept = 16;

    private readonly Queue<double> squares = new(Kept);

    /// <summary>The change between two tares is no slip: it is drift, and what reading both is uncertain by.</summary>
    public void Learn(TareComparison tares)
    {
        var seconds = tares.Seconds;
        if (!(seconds > 0))
            return;
        if (squares.Count == Kept)
            squares.Dequeue();
        squares.Enqueue((tares.ChangeGrams * tares.ChangeGrams - tares.UncertaintyGrams * tares.UncertaintyGrams) / (seconds * seconds));
    }

    /// <summary>Root mean square rate, in grams a second.</summary>
    public double PerSecond(double division)
    {
        var presumed = Presumed * division;
        var sum = PresumedWeight * presumed * presumed + squares.Sum();
        return Math.Sqrt(Math.Max(sum / (PresumedWeight + squares.Count), presumed * presumed / 4));
    }
}
