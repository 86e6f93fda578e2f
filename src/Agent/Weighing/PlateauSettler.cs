namespace CaptureAgent.Agent.Weighing;

/// <summary>A sound first rule: the mean of the newest stretch without a step, once its standard error is within the band and a hand is excluded.</summary>
/// <remarks>
/// Readings are averaged in blocks of half a second. At every block a step of the mean is looked for: the best split in two levels, by Student's t
/// with the pooled deviation (Hinkley 1970, Inference about the change-point in a sequence of random variables; from memory). Bursts are left out whole.
/// The standard error is that of block means, widened by their lag-1 autocorrelation (effective sample size; Zwiers and von Storch 1995; from memory).
/// A hand may rest on the chick, almost still, for some five seconds after the placing and for some seconds before the lift (common practice, no source).
/// So no level is believed that has not outlasted a hand, or that does not follow a step within the hand's time after the placing.
/// </remarks>
internal sealed class PlateauSettler : ISettler
{
    /// <summary>Longest rest of a hand on the chick, with a margin for its leaving.</summary>
    public const double HandSeconds = 6.5;

    /// <summary>Shortest stretch after the last step.</summary>
    public const double MinSeconds = 2.4;

    /// <summary>Of a level that is much stiller than the motion before it: a hand that holds, until it has stayed longer than hands do.</summary>
    private const double HeldSeconds = 9;

    /// <summary>Relative distance from the expected weight within which a chick lies as a rule, and beyond which it seldom does.</summary>
    private const double Near = 0.045;

    private const double Far = 0.09;

    private const double FarSeconds = HandSeconds;

    /// <summary>Motion, relative to the weight, that only a chick on its own feet makes.</summary>
    private const double FreeMotion = 0.002;

    /// <summary>A t of 4.5 between levels: by chance once in some ten thousand splits.</summary>
    private const double StepT = 4.5;

    /// <summary>Of the standard error, for what is learned from a dozen blocks.</summary>
    private const double Margin = 1.2;

    private readonly Blocks blocks = new();
    private readonly Stretch stretch = new();
    private readonly double[] errors = new double[3];
    private SettleContext context;
    private int segment, judged;
    private double plateauFrom, previousSeconds, previousMotion, expected;

    public SettleState State { get; private set; }

    public double Grams { get; private set; }

    public double StandardError { get; private set; }

    public bool Lively { get; private set; }

    public bool Stepped { get; private set; }

    public double LowPlateau { get; private set; }

    public void Begin(in SettleContext context)
    {
        this.context = context;
        expected = double.NaN;
        Lively = false;
        Gap();
    }

    public void Expect(double grams) => expected = grams;

    public void Gap()
    {
        blocks.Clear();
        segment = 0;
        plateauFrom = double.NaN;
        previousSeconds = 0;
        previousMotion = 0;
        State = SettleState.Moving;
        Grams = double.NaN;
        StandardError = double.NaN;
        LowPlateau = double.NaN;
        Stepped = false;
        Array.Clear(errors);
    }

    public void Add(double seconds, double grams)
    {
        if (!blocks.Add(seconds, grams))
            return;
        segment = Math.Max(0, segment - blocks.MakeRoom());
        FindPlateau();
        FindSteps();
        Judge();
    }

    // The hand's time counts from the end of the lowering: two blocks that nearly agree, or two seconds at the latest.
    private void FindPlateau()
    {
        if (!double.IsNaN(plateauFrom) || blocks.Count < 2)
            return;
        var (older, newer) = (blocks[^2], blocks[^1]);
        var agree = Math.Abs(newer.Mean - older.Mean) < Math.Max(2 * context.Division, 0.08 * Math.Abs(newer.Mean));
        if (agree)
            plateauFrom = older.From;
        else if (newer.To - blocks[0].From > 2)
            plateauFrom = newer.From;
    }

    private void FindSteps()
    {
        while (true)
        {
            stretch.Take(blocks, segment, context.Division);
            var split = stretch.BestSplit(context.Division);
            var least = Math.Max(context.Division, 0.0015 * Math.Abs(stretch.Mean));
            if (split.T < StepT || Math.Abs(split.Difference) < least)
                break;
            Leave(split.Block);
        }

        // What is left of the step in the first block of the new level.
        if (stretch.Count > 3
            && Math.Abs(stretch.FirstOff) > Math.Max(0.4 * Band, 2.5 * stretch.Deviation / Math.Sqrt(stretch.Count)))
        {
            segment = stretch.IndexOf(0) + 1;
            stretch.Take(blocks, segment, context.Division);
        }
    }

    /// <summary>Ends the level that began at <see cref="segment"/>.</summary>
    private void Leave(int next)
    {
        var seconds = blocks[next - 1].To - blocks[segment].From;
        Span<double> motions = stackalloc double[next - segment];
        Span<double> means = stackalloc double[next - segment];
        for (var i = segment; i < next; i++)
        {
            motions[i - segment] = Math.Sqrt(blocks[i].Motion);
            means[i - segment] = blocks[i].Mean;
        }

        motions.Sort();
        means.Sort();
        var level = means[means.Length / 2];
        var still = 0;
        foreach (var mean in means)
            still += Math.Abs(mean - level) <= context.Division ? 1 : 0;
        if (still >= 3 && motions[motions.Length / 2] <= Math.Max(context.Division, 2 * context.StillDeviation))
            LowPlateau = level;
        if (seconds >= 1)
        {
            Stepped = true;
            previousSeconds = seconds;
            previousMotion = motions[motions.Length / 2];
        }

        segment = next;
        Array.Clear(errors);
    }

    private void Judge()
    {
        Lively |= stretch.Count >= 3 && stretch.Motion > Math.Max(0.8 * context.Division, 3 * context.StillDeviation);
        if (stretch.Count < 2)
        {
            State = SettleState.Moving;
            return;
        }

        // The moment at which an error looks small is chosen because it does: the largest of the last estimates counts.
        Grams = stretch.Mean;
        errors[judged++ % errors.Length] = stretch.StandardError;
        StandardError = 0;
        foreach (var estimate in errors)
            StandardError = Math.Max(StandardError, Margin * estimate);
        var from = blocks[segment].From;
        var now = blocks[^1].To;
        var (change, error) = stretch.HalfChange();
        var drifts = Math.Abs(change) > Math.Max(0.6 * Band, 2.5 * error);
        var jumps = Math.Abs(stretch.NewestOff) > Band + 4 * stretch.Deviation;
        var known = 2 * Math.Sqrt(StandardError * StandardError + context.TareUncertainty * context.TareUncertainty) <= Band;
        if (now - from < MinSeconds - 0.01 || stretch.Count < 4 || drifts || jumps || stretch.InBurst || !known)
            State = SettleState.Moving;
        else
            State = HandExcluded(from, now) ? SettleState.Settled : SettleState.Contact;
    }

    private bool HandExcluded(double from, double now)
    {
        if (now - plateauFrom < HandSeconds)
            return false;

        // Motion that no resting hand lets through, at the weight the chick should have, speaks against a hand; a weight far off it speaks for one.
        var off = double.IsNaN(expected) ? double.NaN : Math.Abs(Math.Log(Grams / expected));
        var free = off <= Near && stretch.Motion > FreeMotion * Grams;
        var late = from - plateauFrom > HandSeconds - 1;
        var held = previousSeconds >= 2 && from - plateauFrom > 3 && stretch.Motion < 0.4 * previousMotion;
        var least = late && !free ? HandSeconds : MinSeconds;
        if (held)
            least = HeldSeconds;
        else if (off > Far)
            least = Math.Max(least, FarSeconds);
        return now - from >= least;
    }

    private double Band => Uncertainty.Band(double.IsNaN(Grams) ? stretch.Mean : Grams, context.Division);
}
