namespace CaptureAgent.Agent.Feeding.Probes;

/// <summary>The readings of the last minute: seconds, °C.</summary>
internal sealed class RecentReadings
{
    private const double Kept = 60;

    private readonly List<(double Seconds, double Celsius)> readings = [];

    public int Count => readings.Count;

    public (double Seconds, double Celsius) this[Index index] => readings[index];

    public void Add(double seconds, double celsius)
    {
        readings.Add((seconds, celsius));
        if (readings.Count > 16 && readings[0].Seconds < seconds - (2 * Kept))
            readings.RemoveAll(old => old.Seconds < seconds - Kept);
    }

    public void Clear() => readings.Clear();

    /// <summary>Index of the first reading within the last so many seconds, but at least so many readings back if there are as many.</summary>
    public int Since(double seconds, int fewest)
    {
        var i = readings.Count - 1;
        while (i > 0 && (readings[i - 1].Seconds >= readings[^1].Seconds - seconds || readings.Count - i < fewest))
            i--;
        return Math.Max(i, 0);
    }

    public double Mean(int from, int to)
    {
        var sum = 0.0;
        for (var i = from; i < to; i++)
            sum += readings[i].Celsius;
        return sum / (to - from);
    }

    /// <summary>Largest less smallest.</summary>
    public double Spread(int from)
    {
        var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
        for (var i = from; i < readings.Count; i++)
            (low, high) = (Math.Min(low, readings[i].Celsius), Math.Max(high, readings[i].Celsius));
        return high - low;
    }

    /// <summary>Change over the stretch from an index on: the last third's mean less the first third's.</summary>
    public double Change(int from)
    {
        var third = Math.Max(1, (readings.Count - from) / 3);
        return Mean(readings.Count - third, readings.Count) - Mean(from, from + third);
    }

    /// <summary>The latest reading that is still as low as the lowest since an index.</summary>
    public int LastLow(int from, double tolerance)
    {
        var low = double.PositiveInfinity;
        for (var i = from; i < readings.Count; i++)
            low = Math.Min(low, readings[i].Celsius);
        for (var i = readings.Count - 1; i >= from; i--)
        {
            if (readings[i].Celsius <= low + tolerance)
                return i;
        }

        return from;
    }

    /// <summary>The latest reading not after a moment.</summary>
    public int IndexAt(double seconds)
    {
        var i = readings.Count - 1;
        while (i > 0 && readings[i].Seconds > seconds)
            i--;
        return i;
    }

    /// <summary>A probe that follows one step only ever slows down. One that rises quicker than before has been put into something else: the last reading before that; null if it has not.</summary>
    /// <param name="from">Seconds at which the step began; it may quicken at first, where there is a sheath.</param>
    public int? Quickens(double from)
    {
        const double perSecond = 0.35;
        var middle = Since(1, 3);
        var begin = IndexAt(readings[middle].Seconds - Math.Max(2, 2 * Interval));
        if (readings[begin].Seconds < from + 2 || middle - begin < 2)
            return null;
        var late = (readings[^1].Celsius - readings[middle].Celsius) / (readings[^1].Seconds - readings[middle].Seconds);
        var early = (readings[middle].Celsius - readings[begin].Celsius) / (readings[middle].Seconds - readings[begin].Seconds);
        return late > 0 && late > Math.Max(2 * early, early + perSecond) && readings[^1].Celsius - readings[middle].Celsius >= 0.4 ? middle : null;
    }

    /// <summary>Seconds between readings, as a rule.</summary>
    public double Interval
    {
        get
        {
            var from = Math.Max(0, readings.Count - 12);
            return readings.Count - from < 2 ? 1 : (readings[^1].Seconds - readings[from].Seconds) / (readings.Count - 1 - from);
        }
    }
}
