namespace CaptureAgent.Agent.Weighing;

// The pan is at rest: the tare is what lies still there, and is followed.
internal sealed partial class Pan
{
    private PanChange InRest(double seconds, double grams)
    {
        FollowSway();
        var off = grams - Rest!.Grams;
        if (off > Least + swaysBy && !(isSettling && grams < recent.Back(1).Grams + 1.5 * Division))
        {
            Open(seconds);
            settler.Add(seconds, grams - Load!.Zero);
            return PanChange.None;
        }

        if (off < -Least - swaysBy && !(isSettling && grams > recent.Back(1).Grams - 1.5 * Division))
        {
            before = Rest;
            Rest = null;
            leftAt = seconds;
            movingSince = double.NaN;
            followsDoubt = false;
            notBefore = seconds;
            return PanChange.None;
        }

        if (HasSlipped(out var slipped))
        {
            RestAfterSlip(slipped.Median, TareUncertainty(slipped), slipped.Moment);
            return Announce();
        }

        var span = Math.Clamp(seconds - notBefore, SlipSeconds, StillSeconds);
        if (swaysBy == 0 && recent.TryWindow(span, Math.Max(notBefore, Rest.Since), out var window) && IsStill(window))
        {
            Follow(window);
            return Announce();
        }

        if (swaysBy == 0 && isSettling && recent.LastSeconds - fitted >= FitSeconds && TryFitTare(2, notBefore) && WithRounding(settling.Error, stillDeviation) < Rest.Uncertainty)
        {
            fitted = recent.LastSeconds;
            Rest = Rest with { Grams = settling.Level, Uncertainty = WithRounding(settling.Error, stillDeviation), Moment = settling.Moment };
        }

        return PanChange.None;
    }

    private void SetRest(double level, in Window window, bool lined)
    {
        SetRest(level, TareUncertainty(window), window.Moment, lined);
        Learn(window);
    }

    private void SetRest(double level, double uncertainty, double moment, bool lined)
    {
        if (double.IsNaN(bare))
            bare = lined ? 0 : level;
        else if (level < bare - Least)
            bare = level;
        if (level - bare <= LeastLiner)
        {
            bare = level;
            lined = false;
        }

        // Net zero: the scale was tared by its own key with the liner on.
        keyTared &= Math.Abs(level) <= Least;
        lined |= (netMark || keyTared) && Math.Abs(level) <= Least;
        if (!lined)
            taken = TakenFrom(before) ?? taken;
        suspect = false;
        bareSeen = null;
        // What was on its way as the scale went over to another unit had that change under it.
        (restIsSwitched, unitSwitched) = (unitSwitched, false);
        Rest = new Rest(recent.LastSeconds, level, uncertainty, lined) { Moment = moment };
        tracking.Begin(recent.LastSeconds);
        isSettling = false;
        if (!MaySway(level))
            (swaysBy, swayFrom) = (0, recent.LastSeconds - LinerStillSeconds);
        notBefore = double.NegativeInfinity;
    }

    // The liner that lay there until now; known as well as two readings of it.
    private Rest? TakenFrom(Rest? last) => last is { Lined: true } && (last.Bare is null || onBarePan == 0 || Liners.Count > 0) && last.Grams - BareLevel > Least
        ? last.Certain with { Since = recent.LastSeconds, Uncertainty = Math.Max(last.Uncertainty, Division / Math.Sqrt(12)) }
        : null;

    // Drift, crumbs, droppings: the tare is what lies still, however it got there.
    private void Follow(in Window window)
    {
        const double Span = 2.5;
        isSettling = false;
        if (recent.LastSeconds - fitted < FitSeconds)
            return;
        fitted = recent.LastSeconds;
        var tail = Rest!.Since - StillSeconds;
        var (level, uncertainty, moment) = TryFitTare(Span, Math.Max(notBefore, tail)) && settling.Error < Division && IsEndOf(window)
            ? (settling.Level, WithRounding(settling.Error, window.Deviation), settling.Moment)
            : (window.Median, TareUncertainty(window), window.Moment);
        Rest = Rest with { Grams = tracking.Follow(Rest.Grams, level, recent.LastSeconds, Division, InEquilibrium()), Uncertainty = uncertainty, Moment = moment };
        if (!Rest.Lined)
            bare = Rest.Grams;
        Learn(window);
    }

    // A thing that was laid down with a swing comes to rest from above; a tail through both its halves would end below all that was read since.
    private bool IsEndOf(in Window window) => Math.Abs(settling.Level - window.Median) <= Math.Max(Division, window.Range);

    private bool IsStill(in Window window) => window.Range <= StillRange && Math.Abs(window.Change) <= Math.Max(Division, 2 * stillDeviation) + 1e-9;

    // Two neighbouring values, or what this scale's noise makes of them.
    internal bool InEquilibrium() =>
        recent.TryWindow(ZeroTracking.EquilibriumSeconds, double.NegativeInfinity, out var window)
        && window.Range <= Math.Max(Division, 5 * stillDeviation) + 1e-9
        && Math.Abs(window.Change) <= ZeroTracking.DivisionsPerSecond * Division * ZeroTracking.EquilibriumSeconds / 2 + 1e-9;

    private double TareUncertainty(in Window window) => WithRounding(Math.Sqrt(recent.VarianceOfMean(window.Count)), window.Deviation);

    private double WithRounding(double error, double scatter)
    {
        var rounding = Uncertainty.Rounding(Division, scatter);
        return Math.Sqrt(error * error + rounding * rounding);
    }

    private double RoundingNoise => Math.Sqrt(0.13) * Division;

    // Rounding, and what the scale itself is restless by.
    private double ReadingNoise => Math.Sqrt(0.13 * Division * Division + stillDeviation * stillDeviation / 4);

    private void Learn(in Window window) => stillDeviation += 0.2 * (Math.Min(window.Deviation, 10 * Division) - stillDeviation);

    private PanChange Announce()
    {
        if (!Rest!.Lined && double.IsNaN(announcedTare))
            return PanChange.None;
        if (Math.Abs(Rest.Grams - announcedTare) < 1.5 * Division)
            return PanChange.None;
        announcedTare = Rest.Lined ? Rest.Grams : double.NaN;
        if (!Rest.Lined)
            return PanChange.None;
        return PanChange.Tared;
    }
}
