namespace CaptureAgent.Agent.Weighing;

/// <summary>Finds the newest stretch without a step, its weight from the animal's momentum, and whether a hand may still be on it.</summary>
/// <remarks>
/// Readings are averaged in short blocks. At every block a step of the mean is looked for: the best split in two levels, by Student's t with the pooled
/// deviation and its autocorrelation (Hinkley 1970, Inference about the change-point in a sequence of random variables; Zwiers and von Storch 1995; from memory).
/// The weight and its standard error come from all readings of the stretch (<see cref="ImpulseFit"/>). Whether a hand is excluded is <see cref="HandEvidence"/>'s.
/// </remarks>
internal sealed class PlateauSettler : ISettler
{
    /// <summary>A t of 4.5 between levels: by chance once in some ten thousand splits.</summary>
    private const double StepT = 4.5;

    private const int LeastReadings = 5;

    private const double TailShare = 1.3;

    /// <summary>Of a standard error that is learned from a dozen blocks.</summary>
    private const double Margin = 1.2;

    private readonly Trail trail = new();
    private readonly Blocks blocks = new();
    private readonly Stretch stretch = new();
    private readonly HandEvidence hand = new();
    private SettleContext context;
    private int segment;
    private double expected;

    public SettleState State { get; private set; }

    public double Grams { get; private set; }

    public double StandardError { get; private set; }

    public bool Lively { get; private set; }

    public bool Stepped => hand.Stepped;

    public double LowPlateau { get; private set; }

    private double Band => Uncertainty.Band(double.IsNaN(Grams) ? stretch.Mean : Grams, context.Division);

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
        trail.Clear();
        blocks.Clear();
        hand.Clear();
        segment = 0;
        State = SettleState.Moving;
        Grams = double.NaN;
        StandardError = double.NaN;
        LowPlateau = double.NaN;
    }

    public void Add(double seconds, double grams)
    {
        trail.Add(seconds, grams);
        if (!blocks.Add(seconds, grams))
            return;
        segment = Math.Max(0, segment - blocks.MakeRoom());
        FindPlateau();
        FindSteps();
        Judge();
    }

    public Rise RiseTo(double level, double until) => Rise.To(trail.SecondsFrom(0), trail.GramsFrom(0), level, until);

    // The hand's time counts from the end of the lowering: two blocks that nearly agree, or two seconds at the latest.
    private void FindPlateau()
    {
        if (hand.Landed || blocks.Count < 2)
            return;
        var (older, newer) = (blocks[^2], blocks[^1]);
        var agree = Math.Abs(newer.Mean - older.Mean) < Math.Max(2 * context.Division, 0.08 * Math.Abs(newer.Mean));
        if (agree)
            hand.Land(older.From);
        else if (newer.To - blocks[0].From > 2)
            hand.Land(newer.From);
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

        // What is left of the step, or of the filter's tail, in the first block of the new level.
        while (stretch.Count > 3 && Math.Abs(stretch.FirstOff) > Math.Max(0.4 * Band, 2.5 * stretch.Deviation / Math.Sqrt(stretch.Count)))
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
        double steady = 0;
        for (var i = segment; i < next; i++)
            steady += Math.Abs(blocks[i].Mean - level) <= context.Division ? blocks[i].To - blocks[i].From : 0;
        if (steady >= 1.4 && motions[motions.Length / 2] <= Math.Max(context.Division, 2 * context.StillDeviation))
            LowPlateau = level;
        hand.Leave(new Plateau(blocks[segment].From, seconds, level, Beyond(motions[motions.Length / 2])));
        segment = next;
    }

    private void Judge()
    {
        State = SettleState.Moving;
        Lively |= stretch.Count >= 3 && stretch.Motion > Math.Max(0.8 * context.Division, 3 * context.StillDeviation);
        var rise = RiseTo(stretch.Mean, blocks[segment].From + 0.5);
        SkipTail(rise.ReachedAt + TailShare * context.FastestRise);
        var from = blocks[segment].From;
        var now = blocks[^1].To;
        var index = trail.IndexAt(from);
        var fit = ImpulseFit.Of(trail.SecondsFrom(index), trail.GramsFrom(index), context.Division);
        if (double.IsNaN(fit.Grams) || stretch.Count < 2)
            return;
        // Bursts left out, the blocks that remain are the evidence; and noise that is no animal's momentum shows in them.
        Grams = stretch.LeftOut ? stretch.Mean : fit.Grams;
        StandardError = stretch.LeftOut ? Margin * stretch.StandardError : Math.Max(fit.StandardError, stretch.StandardError);
        var (change, error) = stretch.HalfChange();
        var drifts = Math.Abs(change) > Math.Max(0.6 * Band, 2.5 * error);
        var jumps = Math.Abs(stretch.NewestOff) > Band + 4 * stretch.Deviation;
        var known = 2 * Math.Sqrt(StandardError * StandardError + context.TareUncertainty * context.TareUncertainty) <= Band;
        if (drifts || jumps || stretch.InBurst || !known || trail.Count - index < LeastReadings || stretch.Count < 3)
            return;
        var here = new Plateau(from, now - from, Grams, Beyond(stretch.Motion));
        State = hand.Excluded(here, rise.Seconds - context.FastestRise, expected) ? SettleState.Settled : SettleState.Contact;
    }

    // The filter's tail: what is left of a step is gone in the time that the scale's fastest rise took, and a little more.
    private void SkipTail(double clear)
    {
        var skipped = segment;
        while (skipped < blocks.Count - 1 && blocks[skipped].From < clear)
            skipped++;
        if (skipped == segment)
            return;
        segment = skipped;
        stretch.Take(blocks, segment, context.Division);
    }

    // Motion beyond what rounding and the scale at rest make.
    private double Beyond(double motion) =>
        Math.Sqrt(Math.Max(0, motion * motion - context.Division * context.Division / 12 - context.StillDeviation * context.StillDeviation));
}
