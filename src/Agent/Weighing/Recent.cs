namespace CaptureAgent.Agent.Weighing;

/// <summary>The newest readings of one scale, as a ring: seconds on the station's time axis, and grams.</summary>
internal sealed class Recent
{
    private const int Capacity = 1024;
    private const int Mask = Capacity - 1;
    private const int LeastReadings = 4;
    private readonly double[] seconds = new double[Capacity];
    private readonly double[] grams = new double[Capacity];
    private readonly double[] sorted = new double[Capacity];
    private long count, opening;
    private double openingSquares, openingLowest, openingHighest;
    private bool isOpen = true;

    /// <summary>The first reading that is further from zero, in grams, ends the opening: those before it.</summary>
    public double OpeningEnds { get; init; }

    /// <summary>Root mean square of the opening's readings, in grams; zero where they stray to one side alone, as they do where something lands.</summary>
    public double OpeningScatter => openingLowest < 0 && openingHighest > 0 ? Math.Sqrt(openingSquares / opening) : 0;

    /// <summary>How far the opening's readings, and zero, lie apart, in grams.</summary>
    public double OpeningRange => openingHighest - openingLowest;

    public int Count => (int)Math.Min(count, Capacity);

    public double LastSeconds => count == 0 ? double.NaN : seconds[(count - 1) & Mask];

    public void Add(double at, double value)
    {
        seconds[count & Mask] = at;
        grams[count & Mask] = value;
        count++;
        isOpen &= Math.Abs(value) <= OpeningEnds;
        if (!isOpen)
            return;
        opening++;
        openingSquares += value * value;
        (openingLowest, openingHighest) = (Math.Min(openingLowest, value), Math.Max(openingHighest, value));
    }

    public void Clear()
    {
        (count, opening) = (0, 0);
        (openingSquares, openingLowest, openingHighest) = (0, 0, 0);
        isOpen = true;
    }

    /// <summary>The i-th newest reading; 0 is the newest.</summary>
    public (double Seconds, double Grams) Back(int i) => (seconds[(count - 1 - i) & Mask], grams[(count - 1 - i) & Mask]);

    /// <summary>Statistics of the last <paramref name="span"/> seconds, and of four readings at least; false while there is not that much.</summary>
    /// <param name="notBefore">Readings before this moment do not count.</param>
    /// <param name="skip">The newest seconds that are left out.</param>
    public bool TryWindow(double span, double notBefore, out Window window, double skip = 0)
    {
        window = default;
        var newest = 0;
        while (newest < Count && LastSeconds - Back(newest).Seconds < skip)
            newest++;
        if (newest == Count)
            return false;

        var end = Back(newest).Seconds;
        var from = end - span;
        int n = 0;
        double sum = 0, ages = 0, min = double.MaxValue, max = double.MinValue, first = 0;
        var reached = false;
        while (newest + n < Count)
        {
            var (at, value) = Back(newest + n);
            if (at < notBefore)
                break;
            if (at < from - 1e-9 && n >= LeastReadings)
            {
                reached = true;
                break;
            }

            sorted[n] = value;
            sum += value;
            ages += end - at;
            min = Math.Min(min, value);
            max = Math.Max(max, value);
            first = at;
            n++;
        }

        // The window is full when it reaches its own beginning, or a reading lies before it.
        reached |= n > 0 && end - first >= span * 0.85;
        if (n < LeastReadings || !reached)
            return false;

        var mean = sum / n;
        var deviation = Series.Deviation(sorted.AsSpan(0, n), mean);
        var half = n / 2;
        double newer = 0, older = 0;
        for (var i = 0; i < half; i++)
        {
            newer += sorted[i];
            older += sorted[n - 1 - i];
        }

        Array.Sort(sorted, 0, n);
        window = new Window(n, mean, Series.Median(sorted.AsSpan(0, n)), deviation, max - min, (newer - older) / half, end - ages / n);
        return true;
    }

    /// <summary>The newest readings, newest first, thinned out where a fast scale gives more than there is room for.</summary>
    /// <param name="span">Seconds that are looked at, before those that are skipped.</param>
    /// <param name="skip">The newest seconds that are not.</param>
    /// <param name="atLeast">So many are taken whatever the span.</param>
    /// <param name="ages">Gets the seconds before the newest reading.</param>
    /// <param name="offsets">Gets the grams above <paramref name="pivot"/>, the newest that is taken.</param>
    public int Newest(double span, double skip, double notBefore, int atLeast, Span<double> ages, Span<double> offsets, out double pivot)
    {
        var n = 0;
        var next = double.PositiveInfinity;
        pivot = 0;
        for (var i = 0; i < Count && n < ages.Length; i++)
        {
            var (at, grams) = Back(i);
            var age = LastSeconds - at;
            if (at < notBefore || n >= atLeast && age > skip + span)
                break;
            if (age < skip || at > next)
                continue;
            if (n == 0)
                pivot = grams;
            next = at - span / ages.Length;
            ages[n] = age;
            offsets[n++] = grams - pivot;
        }

        return n;
    }

    /// <summary>Variance of the mean of the newest readings, which follow each other with correlation; in grams².</summary>
    /// <param name="newest">How many; no more than <see cref="Count"/>.</param>
    public double VarianceOfMean(int newest)
    {
        var values = sorted.AsSpan(0, newest);
        for (var i = 0; i < newest; i++)
            values[newest - 1 - i] = Back(i).Grams;
        return Series.VarianceOfMean(values, Series.Mean(values));
    }

    /// <summary>Median distance of the newest readings to their median, in grams.</summary>
    /// <param name="newest">How many; no more than <see cref="Count"/>.</param>
    public double MedianDistance(int newest)
    {
        var values = sorted.AsSpan(0, newest);
        for (var i = 0; i < newest; i++)
            values[i] = Back(i).Grams;
        values.Sort();
        var median = Series.Median(values);
        for (var i = 0; i < newest; i++)
            values[i] = Math.Abs(values[i] - median);
        values.Sort();
        return Series.Median(values);
    }

    /// <summary>How long the newest rise took, from 15 to 92 % of the way from <paramref name="low"/> to <paramref name="high"/>; not a number where it is not seen whole.</summary>
    public double NewestRise(double low, double high)
    {
        double upper = double.NaN;
        for (var i = 1; i < Count; i++)
        {
            var (at, grams) = Back(i);
            var (after, higher) = Back(i - 1);
            var share = (grams - low) / (high - low);
            var next = (higher - low) / (high - low);
            if (double.IsNaN(upper) && share < 0.92)
                upper = at + Math.Clamp((0.92 - share) / (next - share), 0, 1) * (after - at);
            if (share < 0.15)
                return upper - at - Math.Clamp((0.15 - share) / (next - share), 0, 1) * (after - at);
        }

        return double.NaN;
    }
}

/// <summary>What a stretch of readings looks like.</summary>
/// <param name="Change">Mean of the newer half less mean of the older half.</param>
/// <param name="Moment">Mean of the seconds at which they were read.</param>
internal readonly record struct Window(int Count, double Mean, double Median, double Deviation, double Range, double Change, double Moment);
