namespace CaptureAgent.Agent.Weighing;

/// <summary>The readings of one load that count, cumulated over time, so that the line through any stretch of them costs a handful of sums.</summary>
/// <remarks>
/// What the pan feels beyond the weight is the rate of change of the animal's momentum (Newton's second law): the integral of the readings over time is weight
/// times time, plus a momentum that is bounded, for the animal stays where it is. The weight is the slope of that integral (<see cref="ImpulseLine"/>).
/// Whole bursts are left out of it (<see cref="Bursts"/>): time stands still meanwhile.
/// </remarks>
internal sealed class ImpulseSeries
{
    private const int Capacity = 4096;
    private readonly double[] moments = new double[Capacity];
    private readonly double[] times = new double[Capacity];
    private readonly double[] grams = new double[Capacity];
    private readonly double[] impulses = new double[Capacity];
    private readonly double[] twice = new double[Capacity];
    private readonly double[] thrice = new double[Capacity];
    private readonly Sums[] sums = new Sums[Capacity + 1];
    private readonly double[] scratch = new double[256];
    private double pivot, interval;

    public int Count { get; private set; }

    public void Clear() => Count = 0;

    /// <summary>Seconds on the station's axis of the i-th reading.</summary>
    public double MomentOf(int i) => moments[i];

    /// <summary>Seconds that count, from the first reading on.</summary>
    public double TimeOf(int i) => times[i];

    /// <summary>Reading less tare.</summary>
    public double GramsOf(int i) => grams[i];

    /// <summary>Mean force from one reading to a later one, in grams.</summary>
    public double MeanOf(int from, int to, double delay) =>
        pivot + (impulses[to] - impulses[from] + delay * (grams[to] - grams[from])) / (times[to] - times[from]);

    /// <summary>Index of the first reading at or after a moment.</summary>
    public int IndexAt(double moment)
    {
        var found = Array.BinarySearch(moments, 0, Count, moment);
        return found < 0 ? ~found : found;
    }

    /// <summary>Index of the first reading at or after a time that counts.</summary>
    public int IndexAtTime(double time)
    {
        var found = Array.BinarySearch(times, 0, Count, time);
        return found < 0 ? ~found : found;
    }

    /// <param name="resumed">What lay between the reading before and this one was left out.</param>
    /// <returns>How many of the oldest were forgotten, for a load that lies for minutes.</returns>
    public int Add(double moment, double value, bool resumed)
    {
        var forgotten = Count == Capacity ? Forget(Capacity / 4) : 0;
        var i = Count++;
        if (i == 0)
        {
            pivot = value;
            interval = 0.1;
        }

        moments[i] = moment;
        grams[i] = value;
        if (i > 0 && !resumed)
            interval = moment - moments[i - 1];
        times[i] = i == 0 ? 0 : times[i - 1] + interval;
        impulses[i] = i == 0 ? 0 : impulses[i - 1] + ((value + grams[i - 1]) / 2 - pivot) * interval;
        IntegrateAgain(i);
        sums[i + 1] = sums[i].And(times[i], impulses[i], value - pivot, StepOf(i));
        return forgotten;
    }

    // Exact for readings that are joined by straight lines, as the impulse is.
    private void IntegrateAgain(int i)
    {
        if (i == 0)
        {
            (twice[0], thrice[0]) = (0, 0);
            return;
        }

        var (h, before, after) = (interval, grams[i - 1] - pivot, grams[i] - pivot);
        twice[i] = twice[i - 1] + h * (impulses[i - 1] + h * (2 * before + after) / 6);
        thrice[i] = thrice[i - 1] + h * (twice[i - 1] + h * (impulses[i - 1] / 2 + h * (3 * before + after) / 24));
    }

    /// <summary>Mean force about the middle of four readings, weighted by the quadratic B-spline with their moments as knots: six times the divided difference of the thrice
    /// integrated force (Curry and Schoenberg 1966, from memory). Of a motion of f Hz it keeps sinc³(f·b) for knots b seconds apart.</summary>
    public double Smooth(int a, int b, int c, int d)
    {
        var ab = (thrice[b] - thrice[a]) / (times[b] - times[a]);
        var bc = (thrice[c] - thrice[b]) / (times[c] - times[b]);
        var cd = (thrice[d] - thrice[c]) / (times[d] - times[c]);
        return pivot + 6 * ((cd - bc) / (times[d] - times[b]) - (bc - ab) / (times[c] - times[a])) / (times[d] - times[a]);
    }

    /// <summary>Takes back the newest readings.</summary>
    public void Truncate(int count) => Count = Math.Min(Count, count);

    /// <summary>The line through the readings from <paramref name="from"/> up to, not with, <paramref name="to"/>; two at least.</summary>
    /// <param name="delay">Of the scale's filter, in seconds.</param>
    public ImpulseLine Line(int from, int to, double delay)
    {
        var n = to - from;
        var within = sums[to].Less(sums[from]);
        var (tt, ti, ty, ii, iy, yy) = within.Centred(n);
        var rough = yy > 0 ? (within.Dd - StepOf(from) * StepOf(from)) / (2 * yy) : 1;
        var tj = ti + delay * ty;
        var jj = ii + 2 * delay * iy + delay * delay * yy;
        var span = times[to - 1] - times[from];
        var mean = (impulses[to - 1] - impulses[from] + delay * (grams[to - 1] - grams[from])) / span;
        var squares = Math.Max(0, jj - tj * tj / tt);
        var motion = Math.Sqrt(Math.Max(0, yy - ty * ty / tt) / n);
        return new ImpulseLine(n, span, pivot + mean, pivot + tj / tt, squares, ty / tt, motion, rough, within.Dd / n);
    }

    /// <summary>Seconds during which the readings from one up to, not with, another lay within a distance of a level.</summary>
    public double SecondsNear(int from, int to, double level, double distance)
    {
        double seconds = 0;
        for (var i = from + 1; i < to; i++)
            seconds += Math.Abs(grams[i] - level) <= distance ? moments[i] - moments[i - 1] : 0;
        return seconds;
    }

    /// <summary>Typical distance of the newest readings, from <paramref name="from"/> on, to a level: 1.4826 times the median, the standard deviation of a normal distribution (Hampel 1974, from memory).</summary>
    public double Scatter(int from, double level)
    {
        var n = Math.Min(Count - from, scratch.Length);
        for (var i = 0; i < n; i++)
            scratch[i] = Math.Abs(grams[Count - 1 - i] - level);
        Array.Sort(scratch, 0, n);
        return n == 0 ? 0 : 1.4826 * scratch[n / 2];
    }

    private double StepOf(int i) => i == 0 ? 0 : grams[i] - grams[i - 1];

    private int Forget(int oldest)
    {
        var kept = Count - oldest;
        foreach (var array in (ReadOnlySpan<double[]>)[moments, times, grams, impulses, twice, thrice])
            Array.Copy(array, oldest, array, 0, kept);
        Count = kept;
        for (var i = 0; i < kept; i++)
            sums[i + 1] = sums[i].And(times[i], impulses[i], grams[i] - pivot, StepOf(i));
        return oldest;
    }

    // Sums over all readings before one: of time, impulse and reading, of their products, and of the squared steps between readings.
    private readonly record struct Sums(double T, double I, double Y, double Tt, double Ti, double Ty, double Ii, double Iy, double Yy, double Dd)
    {
        public Sums And(double t, double i, double y, double d) =>
            new(T + t, I + i, Y + y, Tt + t * t, Ti + t * i, Ty + t * y, Ii + i * i, Iy + i * y, Yy + y * y, Dd + d * d);

        public Sums Less(in Sums o) =>
            new(T - o.T, I - o.I, Y - o.Y, Tt - o.Tt, Ti - o.Ti, Ty - o.Ty, Ii - o.Ii, Iy - o.Iy, Yy - o.Yy, Dd - o.Dd);

        public (double Tt, double Ti, double Ty, double Ii, double Iy, double Yy) Centred(int n) =>
            (Tt - T * T / n, Ti - T * I / n, Ty - T * Y / n, Ii - I * I / n, Iy - I * Y / n, Yy - Y * Y / n);
    }
}
