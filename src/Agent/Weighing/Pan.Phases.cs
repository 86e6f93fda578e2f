namespace CaptureAgent.Agent.Weighing;

// How the pan passes from one phase to the next: not known, at rest, loaded.
internal sealed partial class Pan
{
    private PanChange InUnknown(double seconds)
    {
        if (LinerIsGone())
            (before, movingSince) = (null, double.NaN);
        if (!recent.TryWindow(ReturnedTo(before) ? ShortStillSeconds : StillSeconds, notBefore, out var window))
            return PanChange.None;

        WatchUnrest(window);
        if (IsStill(window) || NearlyStill(ref window) || HumsStill(ref window))
        {
            movingSince = double.NaN;
            var above = window.Median - BareLevel;
            if (above > HeaviestLiner && before is null || !suspect && before is { } last && window.Median - last.Grams > HeaviestLiner)
                return Found(seconds, window);
            if (double.IsNaN(fastestRise) && before is null && above > Math.Max(Least, FewestDivisions * Division))
                fastestRise = recent.NewestRise(BareLevel, window.Median);
            var wasSuspect = suspect;
            SetRest(window.Median, window, lined: above > Least);
            return ConsiderDoubt(wasSuspect) | Announce();
        }

        if (IsSettling(notBefore) && (before is null ? settling.Level - BareLevel <= HeaviestLiner : Math.Abs(settling.Level - before.Grams) < Least))
        {
            movingSince = double.NaN;
            var wasSuspect = suspect;
            SetRest(settling.Level, WithRounding(settling.Error, stillDeviation), settling.Moment, lined: settling.Level - BareLevel > Least);
            isSettling = true;
            return ConsiderDoubt(wasSuspect) | Announce();
        }

        if (before is null && CutOff() is { } tail)
        {
            isCovered = true;
            if (EndOf(tail) is { } end)
            {
                movingSince = double.NaN;
                SetRest(end.Level, WithRounding(end.Error, stillDeviation), end.Moment, lined: true);
                return Announce() | InRest(seconds, lastGrams);
            }
        }

        if (double.IsNaN(movingSince))
            (movingSince, isCovered) = (seconds, false);
        var patience = before is null && !isCovered && ComesToRest(window) ? RestlessSeconds : FoundSeconds;
        return seconds - movingSince > patience && window.Mean > Least ? Found(seconds, window) : PanChange.None;
    }

    // The pan was seen bare, however shortly, so that what comes next is another liner. Where the liner was only presumed to be one, it must come to rest without it.
    private bool LinerIsGone() =>
        !suspect && before is { Lined: true, Bare: null } liner && liner.Grams - BareLevel > 2 * Least && Math.Abs(lastGrams - BareLevel) <= Least;

    // In one direction: a tail behind a slow filter.
    private bool ComesToRest(in Window window) => window.Range <= Math.Max(Least, 2.5 * Math.Abs(window.Change));

    // Before anything lay there nothing lives there: what the readings stray by about zero is the scale's own, a fan's or the bench's. Where some stray much further a liner is landing.
    private void WatchUnrest(in Window window)
    {
        const int LeastReadings = 5;
        if (before is not null || !double.IsNaN(bare))
            return;
        var first = recent.OpeningScatter;
        if (first > Division)
            stillDeviation = Math.Max(stillDeviation, UnrestShare * first);
        if (window.Count < LeastReadings)
            return;
        var unrest = UnrestShare * recent.MedianDistance(window.Count);
        if (unrest <= MostUnrest && window.Range <= 5 * unrest && Math.Abs(window.Median) <= Least)
            stillDeviation = Math.Max(stillDeviation, unrest);
    }

    // Something lies there of which nobody saw what was under it.
    private PanChange Found(double seconds, in Window window)
    {
        if (before is { } last && window.Mean > last.Grams + Least && !suspect)
        {
            // A hasty keeper: the next chick lay down before the pan had come to rest.
            Load = new Placing(seconds, last with { Uncertainty = Math.Max(last.Uncertainty, Division) }, history) { HastyTare = true, Announced = true };
            Begin(Load, seconds, last);
        }
        else
        {
            Load = new Placing(seconds, null, history) { Announced = true, Animal = true };
            Begin(Load, seconds, null);
        }

        lowSince = double.NaN;
        return PanChange.Placed;
    }

    private PanChange InRest(double seconds, double grams)
    {
        FollowSway();
        var off = grams - Rest!.Grams;
        if (off > Least + swaysBy && !(isSettling && grams < recent.Back(1).Grams + 1.5 * Division))
        {
            Open(seconds);
            settler.Add(seconds, off);
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

        if (swaysBy == 0 && recent.TryWindow(StillSeconds, Math.Max(notBefore, Rest.Since), out var window) && IsStill(window))
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

    // Crest and trough of a sway are levels of their own, one after the other.
    private bool MaySway(double level)
    {
        var seconds = recent.LastSeconds - swayFrom;
        return before is { } last && Math.Abs(level - last.Grams) < 1.5 * Least && seconds < 20
            && recent.TryWindow(Math.Min(SwaySpan, seconds) - 0.1, swayFrom, out var since) && since.Range < 1.5 * Least;
    }

    // A liner that sways is known by whole cycles, not by its crest; of less than half a cycle nothing is known. What comes to rest behind the filter is no sway.
    private void FollowSway()
    {
        if (recent.LastSeconds - swayed < FitSeconds || !(recent.LastSeconds - swayFrom > Sway.LeastSeconds + TouchSeconds))
            return;
        swayed = recent.LastSeconds;
        var from = Math.Max(notBefore, swayFrom);
        if (InEquilibrium() || !recent.TryWindow(Math.Min(SwaySpan, recent.LastSeconds - from) - 0.1, from, out var window) || window.Range <= StillRange
            || TryFitTare(SwaySpan, from) || !sway.TryFit(recent, SwaySpan, TouchSeconds, from, ReadingNoise) || sway.Amplitude > window.Range)
        {
            swaysBy = 0;
            return;
        }

        swaysBy = sway.Amplitude;
        Rest = Rest! with { Grams = sway.Level, Uncertainty = WithRounding(sway.Error, sway.Amplitude / Math.Sqrt(2)), Moment = sway.Moment };
    }

    private PanChange InLoad(double seconds, double grams)
    {
        var load = Load!;
        if (load.Tare is not { } tare)
            return InFoundLoad(load, seconds, grams);

        var net = grams - tare.Grams;
        settler.Add(seconds, net);
        if (recent.TryWindow(0.3, load.Seconds, out var newest))
            load.Peak = Math.Max(load.Peak, Math.Min(newest.Median - tare.Grams, 1e6));
        if (load.LinkLost && !load.Restarted && tare.Grams > 2 * Least && grams < tare.Grams - 0.5 * Math.Abs(tare.Grams) && load.Peak > Least)
            load.Restarted = suspect = true;

        if (net < Math.Max(Least, 0.12 * load.Peak))
        {
            if (double.IsNaN(lowSince))
                lowSince = seconds;
            return seconds - lowSince >= LiftSeconds ? Lift(load) : PanChange.None;
        }

        lowSince = double.NaN;
        if (AnimalTakenOut(load, tare) is { } left)
            return LeaveLiner(load, tare, left);
        load.Animal |= settler.Lively && tare.Lined;
        return tare.Lined || load.Animal ? Announce(load, seconds) : OnBarePan(load, tare, seconds);
    }

    // A load on a bare pan: the liner if it lies still, an animal if it goes on moving.
    private PanChange OnBarePan(Placing load, Rest tare, double seconds)
    {
        if (recent.TryWindow(LinerStillSeconds, load.Seconds, out var window) && IsStill(window)
            && window.Median - tare.Grams <= HeaviestLiner && !netMark)
        {
            LearnRise(window.Median - tare.Grams, seconds);
            EndLoad();
            SetRest(window.Median, window, lined: true);
            return Presume(load, tare);
        }

        if (!netMark && IsSettling(load.Seconds) && settling.Level - tare.Grams <= HeaviestLiner)
        {
            LearnRise(settling.Level - tare.Grams, seconds);
            EndLoad();
            SetRest(settling.Level, WithRounding(settling.Error, stillDeviation), settling.Moment, lined: true);
            isSettling = true;
            return Presume(load, tare);
        }

        if (!netMark && CutOff() is { } tail && EndOf(tail) is { } end)
        {
            LearnRise(end.Level - tare.Grams, seconds);
            EndLoad();
            SetRest(end.Level, WithRounding(end.Error, stillDeviation), end.Moment, lined: true);
            return Presume(load, tare) | InRest(seconds, lastGrams);
        }

        if (seconds - load.Seconds < 5)
            return PanChange.None;
        load.Animal = settler.Lively;
        return load.Animal || window.Median - tare.Grams > HeaviestLiner || seconds - load.Seconds >= RestlessSeconds ? Announce(load, seconds) : PanChange.None;
    }

    // What rests there now is the liner, as far as can be told.
    private PanChange Presume(Placing load, Rest tare)
    {
        Rest = Rest! with { Bare = tare };
        Doubt(load);
        return Announce();
    }

    // A thing that is just put down shows how fast this scale can rise; a light one on a coarse scale jumps, and shows nothing.
    private void LearnRise(double level, double seconds)
    {
        if (level < FewestDivisions * Division)
            return;
        var rise = settler.RiseTo(level, seconds).Seconds;
        fastestRise = double.IsNaN(fastestRise) ? rise : Math.Min(fastestRise, rise);
    }

    private PanChange InFoundLoad(Placing load, double seconds, double grams)
    {
        settler.Add(seconds, grams);
        RememberFound(load, seconds);
        if (!recent.TryWindow(StillSeconds, notBefore, out var window) || !IsStill(window))
            return PanChange.None;
        var level = double.IsNaN(foundBefore) ? window.Median : foundBefore;
        load.Peak = Math.Max(load.Peak, level);
        var gone = window.Median < level - Math.Max(Least, 0.15 * Math.Abs(level)) || window.Median < -Least || Math.Abs(window.Median) < Least && load.Peak > 3 * Least;
        if (!gone)
            return PanChange.None;
        suspect = false;
        return Lift(load) | InUnknown(seconds);
    }

    // What it weighed before a lift, which the settler forgets at the next level.
    private void RememberFound(Placing load, double seconds)
    {
        const double LiftTakes = 1.5;
        if (load.Seconds != foundAt)
            (foundAt, foundSince, foundNow, foundBefore) = (load.Seconds, seconds, double.NaN, double.NaN);
        if (seconds - foundSince < LiftTakes)
            return;
        (foundSince, foundBefore, foundNow) = (seconds, foundNow, settler.Grams);
    }

    private static PanChange Announce(Placing load, double seconds)
    {
        if (load.Announced || seconds - load.Seconds < BumpSeconds)
            return PanChange.None;
        load.Announced = true;
        return PanChange.Placed;
    }

    private PanChange Lift(Placing load)
    {
        notBefore = double.IsNaN(lowSince) ? double.NegativeInfinity : lowSince;
        load.LeftSeconds = leftAt = double.IsNaN(lowSince) ? LastSeconds : lowSince;
        LiftedFrom(load);
        Lifted = load;
        Load = null;
        bareSinceLift = false;
        lowSince = double.NaN;
        movingSince = double.NaN;

        // After a restart what shows zero may be the chick itself: no rest is believed until the pan was seen lighter.
        suspect &= load.Restarted;
        return load.Announced ? PanChange.Lifted : LeaveUnseen(load);
    }

    private bool ReturnedTo(Rest? last) => last is not null && !suspect && Math.Abs(lastGrams - last.Grams) < Least;

    private bool IsStill(in Window window) => window.Range <= StillRange && Math.Abs(window.Change) <= Math.Max(Division, 2 * stillDeviation) + 1e-9;

    // Two neighbouring values, or what this scale's noise makes of them.
    internal bool InEquilibrium() =>
        recent.TryWindow(ZeroTracking.EquilibriumSeconds, double.NegativeInfinity, out var window)
        && window.Range <= Math.Max(Division, 5 * stillDeviation) + 1e-9
        && Math.Abs(window.Change) <= ZeroTracking.DivisionsPerSecond * Division * ZeroTracking.EquilibriumSeconds / 2 + 1e-9;

    // In a draught a pan never lies within two divisions: a longer stretch near a known level, or near zero, will do.
    private bool NearlyStill(ref Window window)
    {
        var near = before?.Grams ?? 0;
        return recent.TryWindow(3, notBefore, out window)
            && Math.Abs(window.Mean - near) < Least
            && Math.Abs(window.Change) < Math.Max(Division, window.Deviation)
            && !suspect;
    }

    // Few readings of the bare pan were seen, and those strayed: what strays a while about one level no more than a fan can make it is the liner, and the fan.
    private bool HumsStill(ref Window window)
    {
        const double Span = 2.5;
        const int LeastReadings = 5;
        if (before is not null || !double.IsNaN(bare) || recent.OpeningRange < 2 * Division || !recent.TryWindow(Span, notBefore, out var longer)
            || longer.Count < LeastReadings || longer.Deviation > MostUnrest || Math.Abs(longer.Change) > Math.Max(Division, longer.Deviation))
            return false;
        window = longer;
        stillDeviation = Math.Max(stillDeviation, longer.Deviation);
        return true;
    }

    // Rounding, and what the scale itself is restless by.
    private double ReadingNoise => Math.Sqrt(0.13 * Division * Division + stillDeviation * stillDeviation / 4);

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
        if (level - bare <= Least)
        {
            bare = level;
            lined = false;
        }

        // Net zero: the scale was tared by its own key with the liner on.
        lined |= netMark && Math.Abs(level) <= Least;
        suspect = false;
        Rest = new Rest(recent.LastSeconds, level, uncertainty, lined) { Moment = moment };
        tracking.Begin(recent.LastSeconds);
        isSettling = false;
        if (!MaySway(level))
            (swaysBy, swayFrom) = (0, recent.LastSeconds - LinerStillSeconds);
        notBefore = double.NegativeInfinity;
    }

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

    private double TareUncertainty(in Window window) => WithRounding(Math.Sqrt(recent.VarianceOfMean(window.Count)), window.Deviation);

    private double WithRounding(double error, double scatter)
    {
        var rounding = Uncertainty.Rounding(Division, scatter);
        return Math.Sqrt(error * error + rounding * rounding);
    }

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
