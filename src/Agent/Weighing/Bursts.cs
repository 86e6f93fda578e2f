namespace CaptureAgent.Agent.Weighing;

/// <summary>What becomes of a reading.</summary>
internal enum Passage
{
    /// <summary>It counts.</summary>
    Counts,

    /// <summary>It is held back: a burst, or a step; the next readings tell.</summary>
    Held,

    /// <summary>It ends a burst: what was held is left out, and the newest before the burst too.</summary>
    EndsBurst,

    /// <summary>It was a step, or motion that has become the rule: what was held counts.</summary>
    EndsStep,
}

/// <summary>Leaves whole bursts (flaps, knocks) out of the readings.</summary>
/// <remarks>A burst has no net impulse over its whole course (momentum is the same before and after), so that leaving all of it out costs no bias; half of one has.
/// A burst comes back to where it was; what stays elsewhere is a step, and what does not end is motion.</remarks>
internal sealed class Bursts
{
    private const double LongestSeconds = 3.5;
    private const double QuietSeconds = 0.35;
    private const double StepSeconds = 0.5;
    private const int Capacity = 512;
    private readonly double[] moments = new double[Capacity];
    private readonly double[] grams = new double[Capacity];

    public int Held { get; private set; }

    public (double Moment, double Grams) this[int i] => (moments[i], grams[i]);

    public void Clear() => Held = 0;

    /// <param name="level">What is taken for the weight; not a number while it is not known.</param>
    /// <param name="limit">How far a reading may be off it.</param>
    public Passage Add(double moment, double value, double level, double limit)
    {
        if (Held == 0 && !(Math.Abs(value - level) > limit))
            return Passage.Counts;
        if (Held == Capacity)
            return Passage.EndsStep;
        moments[Held] = moment;
        grams[Held++] = value;
        if (!(limit > 0) || moment - moments[0] > LongestSeconds)
            return Passage.EndsStep;
        return Quiet(QuietSeconds, level, limit) ? Passage.EndsBurst : Elsewhere(level, limit) ? Passage.EndsStep : Passage.Held;
    }

    /// <summary>The first of the readings held that belong to the quiet after the burst.</summary>
    public int FirstQuiet()
    {
        var i = Held - 1;
        while (i > 0 && moments[Held - 1] - moments[i - 1] <= QuietSeconds)
            i--;
        return i;
    }

    private bool Quiet(double seconds, double level, double limit)
    {
        double sum = 0;
        for (var i = Held - 1; i >= 0; i--)
        {
            if (Math.Abs(grams[i] - level) > limit / 2)
                return false;
            sum += grams[i] - level;
            var n = Held - i;
            if (n >= 2 && moments[Held - 1] - moments[i] >= seconds)
                return Math.Abs(sum / n) < limit / 4;
        }

        return false;
    }

    // What is on its way back, behind a slow filter perhaps, has not gone elsewhere.
    private bool Elsewhere(double level, double limit)
    {
        double least = double.MaxValue, most = double.MinValue;
        for (var i = Held - 1; i >= 0; i--)
        {
            least = Math.Min(least, grams[i]);
            most = Math.Max(most, grams[i]);
            if (most - least > limit)
                return false;
            if (Held - i >= 3 && moments[Held - 1] - moments[i] >= StepSeconds)
                return (least > level + limit / 2 || most < level - limit / 2) && Math.Abs(grams[Held - 1] - level) > Math.Abs(grams[i] - level) - limit / 8;
        }

        return false;
    }
}
