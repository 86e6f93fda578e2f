namespace CaptureAgent.Agent.Weighing;

/// <summary>Statistics of a stretch of blocks, whole bursts left out.</summary>
internal sealed class Stretch
{
    private const int Capacity = 512;
    private readonly double[] means = new double[Capacity];
    private readonly int[] index = new int[Capacity];
    private readonly double[] scratch = new double[Capacity];

    /// <summary>A burst was left out.</summary>
    public bool LeftOut { get; private set; }

    /// <summary>Blocks that count.</summary>
    public int Count { get; private set; }

    public double Mean { get; private set; }

    /// <summary>Standard error of <see cref="Mean"/>, in grams.</summary>
    public double StandardError { get; private set; }

    /// <summary>Median standard deviation of the readings within a block, in grams.</summary>
    public double Motion { get; private set; }

    /// <summary>Newest counted block less the mean of the others.</summary>
    public double NewestOff { get; private set; }

    /// <summary>Standard deviation of the block means.</summary>
    public double Deviation { get; private set; }

    /// <summary>Index (in <see cref="Blocks"/>) of the i-th block that counts.</summary>
    public int IndexOf(int i) => index[i];

    /// <summary>The newest block is far livelier than most: a burst that is not over.</summary>
    public bool InBurst { get; private set; }

    /// <summary>Takes blocks from <paramref name="from"/> on, short bursts left out with the block on either side.</summary>
    /// <remarks>A burst has no net impulse over its whole course (momentum is the same before and after), so that leaving all of it out costs no bias;
    /// half of one has. One that is not over, and motion that has become the rule, stay in.</remarks>
    public void Take(Blocks blocks, int from, double division)
    {
        var n = blocks.Count - from;
        double level = 0;
        for (var i = 0; i < n; i++)
        {
            scratch[i] = blocks[from + i].Motion;
            level += blocks[from + i].Mean / n;
        }

        Array.Sort(scratch, 0, n);
        var typical = n == 0 ? 0 : scratch[n / 2];
        Motion = Math.Sqrt(typical);
        var least = Math.Max(3 * division, 0.015 * Math.Abs(level));
        var limit = Math.Max(16 * typical, least * least);
        InBurst = n > 0 && blocks[^1].Motion > limit;

        Count = 0;
        for (var i = from; i < blocks.Count; i++)
        {
            if (!InShortBurst(blocks, from, i, limit))
                Keep(blocks, i);
        }

        // Where most of it is burst, the bursts are the motion: average over all of it.
        if (Count * 2 < n)
        {
            Count = 0;
            for (var i = from; i < blocks.Count; i++)
                Keep(blocks, i);
        }

        LeftOut = Count < n;
        Summarize(division);
    }

    /// <summary>The best split of the stretch in two levels: Student's t of their difference with the pooled deviation within them.</summary>
    public Split BestSplit(double division)
    {
        var best = default(Split);
        double total = 0, squares = 0;
        for (var i = 0; i < Count; i++)
        {
            var deviation = means[i] - Mean;
            total += deviation;
            squares += deviation * deviation;
        }

        double left = 0;
        for (var split = 1; split < Count; split++)
        {
            left += means[split - 1] - Mean;
            if (split < 2 || Count - split < 2)
                continue;
            var right = total - left;
            double a = split, b = Count - split;
            var within = Math.Max(0, squares - left * left / a - right * right / b) / (Count - 2);
            var difference = right / b - left / a;
            var t = Math.Abs(difference) / Math.Sqrt((within * Inflation(split, left / a, right / b) + BlockFloor(division)) * (1 / a + 1 / b));
            if (t > best.T)
                best = new Split(index[split], t, difference);
        }

        return best;
    }

    // Blocks of a slow motion follow each other: their lag-1 correlation within the two levels widens the error.
    private double Inflation(int split, double left, double right)
    {
        double squares = 0, lagged = 0, before = 0;
        for (var i = 0; i < Count; i++)
        {
            var deviation = means[i] - Mean - (i < split ? left : right);
            squares += deviation * deviation;
            if (i > 0 && i != split)
                lagged += deviation * before;
            before = deviation;
        }

        return Series.Inflation(squares > 0 ? Math.Clamp(lagged / squares, 0, 0.7) : 0);
    }

    /// <summary>Variance that a block's mean has from rounding alone when the readings hardly move.</summary>
    private static double BlockFloor(double division) => 0.04 * division * division;

    private void Keep(Blocks blocks, int i)
    {
        index[Count] = i;
        means[Count++] = blocks[i].Mean;
    }

    // A run of at most two seconds over the limit, with quiet on both sides; the blocks beside it hold its beginning and its end.
    private static bool InShortBurst(Blocks blocks, int from, int i, double limit)
    {
        const int Longest = 4;
        for (var seed = Math.Max(from, i - 1); seed <= Math.Min(blocks.Count - 1, i + 1); seed++)
        {
            if (blocks[seed].Motion <= limit)
                continue;
            int first = seed, last = seed;
            while (first > from && blocks[first - 1].Motion > limit)
                first--;
            while (last + 1 < blocks.Count && blocks[last + 1].Motion > limit)
                last++;

            // What does not come back to where it was is a step.
            if (first > from && last + 1 < blocks.Count && last - first < Longest
                && Math.Abs(blocks[last + 1].Mean - blocks[first - 1].Mean) < Math.Sqrt(limit))
                return true;
        }

        return false;
    }

    private void Summarize(double division)
    {
        if (Count == 0)
        {
            Mean = double.NaN;
            StandardError = double.NaN;
            return;
        }

        var counted = means.AsSpan(0, Count);
        Mean = Series.Mean(counted);
        Deviation = Series.Deviation(counted, Mean);
        if (Count < 2)
        {
            StandardError = double.NaN;
            return;
        }

        StandardError = Math.Sqrt(Series.VarianceOfMean(counted, Mean) + BlockFloor(division) / Count);
        NewestOff = Count > 2 ? (means[Count - 1] - Mean) * Count / (Count - 1) : 0;
    }

    /// <summary>Mean of the newer half less the mean of the older half, and its standard error.</summary>
    public (double Change, double Error) HalfChange()
    {
        var half = Count / 2;
        if (half == 0)
            return (0, double.PositiveInfinity);
        double older = 0, newer = 0;
        for (var i = 0; i < half; i++)
        {
            older += means[i];
            newer += means[Count - 1 - i];
        }

        return ((newer - older) / half, Deviation * Math.Sqrt(2.0 / half));
    }

    /// <summary>How far the first counted block lies from the mean of the others: the rest of a step, or of the filter's tail.</summary>
    public double FirstOff => Count > 2 ? (means[0] - Mean) * Count / (Count - 1) : 0;
}

/// <param name="Block">Index of the first block of the newer level.</param>
/// <param name="Difference">Newer level less older, in grams.</param>
internal readonly record struct Split(int Block, double T, double Difference);
