namespace CaptureAgent.Agent.Weighing;

/// <summary>Finds the newest level, its weight from the animal's momentum, whether a hand may still be on it, and whether it moves as an animal does.</summary>
/// <remarks>
/// Whole bursts are left out (<see cref="Bursts"/>); a kink of the impulse ends a level (<see cref="Levels"/>). The weight is that of the stretch, of all that end now and began
/// on this level, whose standard error is least (<see cref="BestStretch"/>); readings too rare to show strides are averaged (<see cref="BoutMean"/>). Settled is what is known
/// within the acceptance band, moves like an animal (<see cref="AnimalEvidence"/>), and bears no hand (<see cref="HandEvidence"/>); about as heavy as expected, what all of
/// these show together is hardly ever a wrong record (<see cref="WrongChance"/>).
/// </remarks>
internal sealed partial class PlateauSettler : ISettler
{
    private const double EvaluationSeconds = 0.18;

    /// <summary>Of a scale that has not shown how fast it rises: slower than most, so that a filter is not taken for a hand.</summary>
    private const double SlowRise = 1;

    /// <summary>So long a level has moved as the chick usually does before that is believed: what a hand makes when it comes or goes is over sooner.</summary>
    private const double UsualSeconds = 1;

    private readonly Trail trail = new();
    private readonly Blocks blocks = new();
    private readonly ImpulseSeries series = new();
    private readonly Bursts bursts = new();
    private readonly BoutMean bouts = new();
    private readonly HandEvidence hand = new();
    private readonly Signs signs = new();
    private readonly EstimatePath path = new();
    private readonly WrongChance wrong = new();
    private SettleContext context;
    private MotionHabit habit;
    private FilterDelay delay;
    private int segment;
    private double segmentMoment, expected, evaluated, scatter, averaging, told, rounding;
    private double usualSince = double.NaN, agreedSince = double.NaN, highest;
    private int burstsEnded;
    private bool resumed, sinceLanding;

    public SettleState State { get; private set; }

    public double Grams { get; private set; }

    public double StandardError => Math.Sqrt(told * told + rounding * rounding);

    public bool Lively { get; private set; }

    public bool Stepped => hand.Stepped;

    public LowPlateau LowPlateau { get; private set; } = LowPlateau.None;

    public Motion Motion { get; private set; }

    public double Rounding => rounding;

    public Surest? Surest { get; private set; }

    public void Begin(in SettleContext context)
    {
        this.context = context;
        delay = FilterDelay.From(context.FastestRise);
        expected = double.NaN;
        habit = default;
        Lively = false;
        Gap();
        sinceLanding = true;
    }

    public void Expect(double grams, in MotionHabit habit = default) => (expected, this.habit) = (grams, habit);

    public void Gap()
    {
        trail.Clear();
        blocks.Clear();
        series.Clear();
        bursts.Clear();
        hand.Clear();
        path.Clear();
        segment = 0;
        segmentMoment = double.NaN;
        evaluated = double.NegativeInfinity;
        scatter = 0;
        resumed = sinceLanding = false;
        burstsEnded = 0;
        agreedSince = double.NaN;
        highest = 0;
        wrong.Clear();
        Surest = null;
        signs.Clear();
        State = SettleState.Moving;
        Grams = double.NaN;
        told = averaging = double.NaN;
        rounding = 0;
        Motion = default;
        usualSince = double.NaN;
        LowPlateau = LowPlateau.None;
    }

    /// <summary>What the newest evaluation weighed; empty where there was nothing to weigh.</summary>
    public ReadOnlySpan<float> Signs => signs.Values;

    /// <summary>Moment of the newest evaluation.</summary>
    public double EvaluatedSeconds => evaluated;

    public Rise RiseTo(double level, double until) => Rise.To(trail.SecondsFrom(0), trail.GramsFrom(0), level, until);

    public void Add(double seconds, double grams)
    {
        trail.Add(seconds, grams);
        highest = Math.Max(highest, grams);
        if (blocks.Add(seconds, grams))
        {
            blocks.MakeRoom();
            hand.Watch(blocks, context.Division);
        }

        var isKnown = State != SettleState.Moving || averaging < Math.Max(0.01 * Math.Abs(Grams), context.Division);
        switch (bursts.Add(seconds, grams, isKnown ? Grams : double.NaN, BurstLimit))
        {
            case Passage.Counts:
                Append(seconds, grams);
                break;
            case Passage.Held:
                State = SettleState.Moving;
                return;
            case Passage.EndsBurst:
                EndBurst();
                break;
            default:
                EndStep();
                break;
        }

        if (seconds - evaluated < EvaluationSeconds)
            return;
        evaluated = seconds;
        Evaluate();
    }

    private double BurstLimit => Math.Max(Math.Max(6 * scatter, 0.025 * Math.Abs(Grams)), 4 * context.Division);

    private void Append(double seconds, double grams)
    {
        segment = Math.Max(0, segment - series.Add(seconds, grams, resumed));
        resumed = false;
        if (double.IsNaN(segmentMoment))
            segmentMoment = seconds;
    }

    // The beginning of a burst is below its limit: the last third of a second goes with it.
    private void EndBurst()
    {
        const double Onset = 0.3;
        burstsEnded++;
        series.Truncate(Math.Max(segment + BestStretch.LeastReadings, series.IndexAt(bursts[0].Moment - Onset)));
        resumed = true;
        for (var i = bursts.FirstQuiet(); i < bursts.Held; i++)
            Append(bursts[i].Moment, bursts[i].Grams);
        bursts.Clear();
    }

    private void EndStep()
    {
        for (var i = 0; i < bursts.Held; i++)
            Append(bursts[i].Moment, bursts[i].Grams);
        bursts.Clear();
        told = averaging = double.NaN;
    }

    private void Evaluate()
    {
        State = SettleState.Moving;
        signs.Clear();
        if (series.Count - segment < BestStretch.LeastReadings)
            return;
        for (var next = Levels.Step(series, segment, delay, context.Division); next > 0; next = Levels.Step(series, segment, delay, context.Division))
            Leave(next);
        if (!BestStretch.TryFind(series, segment, delay, context.Division, out var best))
            return;
        Grams = best.Grams;
        scatter = series.Scatter(best.From, Grams);
        if (BoutMean.IsRare(best.Line) && BestStretch.TryFindRare(series, WholeFrom(ArrivedAt()), delay, context.Division, Grams, BurstLimit, bouts, out var rare))
        {
            best = rare;
            Grams = best.Grams;
            scatter = series.Scatter(best.From, Grams);
        }

        rounding = Uncertainty.Rounding(context.Division, best.Line.Motion);
        Motion = Motion.Of(best.Line, delay.Seconds, context.Division, context.StillDeviation);
        Lively |= best.Line.Seconds >= 0.9 && best.Line.Motion > Math.Max(0.8 * context.Division, 3 * context.StillDeviation);
        Judge(best);
    }

    // All of this level, once the filter's tail is over.
    private int WholeFrom(double arrived) => Math.Min(series.Count - 3, series.IndexAt(arrived + delay.Seconds));

    // What moves as usual must go on doing so.
    private Likeness LikenessOf(in BestStretch best)
    {
        if (habit.Mornings < MotionHabit.LeastMornings)
            return Likeness.Unknown;
        var likeness = habit.Compare(Motion, SteadyMotion(best), Grams);
        if (likeness != Likeness.Usual)
        {
            usualSince = double.NaN;
            return likeness;
        }

        var now = series.MomentOf(series.Count - 1);
        if (double.IsNaN(usualSince))
            usualSince = now;
        return now - usualSince >= UsualSeconds ? likeness : Likeness.Unknown;
    }

    // Of the stiller half: what a hand makes when it comes or goes is no motion of the chick's.
    private Motion SteadyMotion(in BestStretch best)
    {
        var middle = series.IndexAtTime((series.TimeOf(best.From) + series.TimeOf(series.Count - 1)) / 2);
        if (middle - best.From < 3 || series.Count - middle < 3)
            return Motion;
        var older = Motion.Of(series.Line(best.From, middle, delay.Seconds), delay.Seconds, context.Division, context.StillDeviation);
        var newer = Motion.Of(series.Line(middle, series.Count, delay.Seconds), delay.Seconds, context.Division, context.StillDeviation);
        return older with { Force = Math.Min(older.Force, newer.Force), Momentum = Math.Min(older.Momentum, newer.Momentum) };
    }

    // The readings of this level have come near it: what follows is the filter's tail, and then the level.
    private double ArrivedAt()
    {
        var near = Math.Max(0.015 * Math.Abs(Grams), 2 * context.Division);
        for (var i = segment; i < series.Count; i++)
        {
            if (Math.Abs(series.GramsOf(i) - Grams) <= near)
                return series.MomentOf(i);
        }

        return segmentMoment;
    }

    /// <summary>Ends the level that began at <see cref="segment"/>.</summary>
    private void Leave(int next)
    {
        // Without the rise to it, and the beginning of the step from it.
        var third = (next - segment) / 3;
        var line = next - 1 - segment - third >= 4 ? series.Line(segment + third, next - 1, delay.Seconds) : series.Line(segment, next, delay.Seconds);
        var level = line.Grams;
        FindLowPlateau(segment + third, next - 1);
        var end = series.MomentOf(next - 1);
        var rise = RiseTo(level, Math.Min(end, segmentMoment + 1.5 + 4 * delay.Seconds));
        var reached = double.IsNaN(rise.ReachedAt) ? segmentMoment : Math.Max(segmentMoment, rise.ReachedAt);
        hand.Leave(new Plateau(reached, end, level, Beyond(line.Motion), Stop(rise.Seconds)));
        segment = next;
        path.Clear();
        (usualSince, agreedSince) = (double.NaN, double.NaN);
        segmentMoment = series.MomentOf(next);
    }

    // A step takes its time, and is found to the nearest quarter of a second: what strays at its end from the first half of a still level is no longer it.
    private void FindLowPlateau(int from, int to)
    {
        const double Still = 0.02;
        const double LeastSeconds = 1.4;
        const double Swaying = 0.1;
        if (to - from < 4)
            return;
        var first = series.MeanOf(from, (from + to) / 2, 0);
        while (to - from > 8 && Math.Abs(series.GramsOf(to - 1) - first) > Math.Max(1.5 * context.Division, Still * Math.Abs(first)))
            to--;
        var line = series.Line(from, to, delay.Seconds);
        if (series.SecondsNear(segment, to, line.Grams, context.Division) >= LeastSeconds && line.Motion <= Math.Max(context.Division, 2 * context.StillDeviation))
            LowPlateau = new LowPlateau(line.Grams, IsStill: true, line.Seconds);
        else if (!LowPlateau.IsStill && line.Seconds >= LeastSeconds && line.Motion <= Swaying * line.Grams)
            LowPlateau = new LowPlateau(line.Grams, IsStill: false, line.Seconds);
    }

    // A hand's time and the filter's add in squares, as the spreads of what follows one another do. Between slow readings the ends of a rise are guessed.
    private double Stop(double rise)
    {
        const double Doubt = 0.12;
        var fastest = double.IsNaN(context.FastestRise) ? SlowRise : context.FastestRise;
        var squares = rise * rise - fastest * fastest - 2 * Doubt * rise;
        return Math.Sqrt(Math.Max(0, squares)) - 0.6 * series.TimeOf(series.Count - 1) / series.Count;
    }

    // Motion beyond what rounding and the scale at rest make.
    private double Beyond(double motion) =>
        Math.Sqrt(Math.Max(0, motion * motion - context.Division * context.Division / 12 - context.StillDeviation * context.StillDeviation));
}
