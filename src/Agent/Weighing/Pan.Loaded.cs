namespace CaptureAgent.Agent.Weighing;

// A load lies on the pan, until it is lifted or was the liner.
internal sealed partial class Pan
{
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
        if (IsCrest(load, tare))
            return Sways(load, tare);
        if (IsTaredByKey(load, tare, out var level) || IsSlip(load, tare, out level))
            return LinesPan(load, tare, level);
        if (AnimalTakenOut(load, tare) is { } left)
            return LeaveLiner(load, tare, left);
        load.Animal |= settler.Lively && tare.Lined;
        return tare.Lined || load.Animal ? Announce(load, seconds) : OnBarePan(load, tare, seconds);
    }

    // From one reading to the next the liner is gone and zero is shown: no filter falls so fast, so that it was the scale's own key, though it sends no mark of it.
    private void WatchKey()
    {
        const double Share = 0.1;
        const double Faster = 5;
        if ((Rest ?? before) is not { Lined: true } liner || liner.Grams <= 2 * Least || recent.Count < 2)
            return;
        var last = recent.Back(1);
        if (Math.Abs(lastGrams) > 0.5 * Division || Math.Abs(last.Grams - liner.Grams) > Math.Max(Least, Share * liner.Grams)
            || !(LastSeconds - last.Seconds <= fastestRise / Faster))
            return;
        keyTared = true;
        (taken, before, Rest) = (null, null, null);
        (movingSince, notBefore) = (double.NaN, LastSeconds);
    }

    // The scale shows net zero for what came onto a pan that it had shown below zero: its own key was pressed, and what lies there is the liner.
    private bool IsTaredByKey(Placing load, Rest tare, out Window zero)
    {
        zero = default;
        return netMark && tare.Grams < -Least && load.CodedSeconds is null && recent.TryWindow(ShortStillSeconds, load.Seconds, out zero) && IsStill(zero) && Math.Abs(zero.Median) <= Division;
    }

    // So little, and still, is no load: the liner slipped, or something fell onto it.
    private bool IsSlip(Placing load, Rest tare, out Window level)
    {
        const double Little = 1.2;
        level = default;
        return load.CodedSeconds is null && recent.TryWindow(StillSeconds, load.Seconds, out level) && IsStill(level) && level.Median - tare.Grams <= Little * Least;
    }

    private PanChange LinesPan(Placing load, Rest tare, in Window level)
    {
        var lifted = EndStir(load);
        SetRest(level.Median, level, tare.Lined || netMark || level.Median - BareLevel > Math.Max(LeastLiner, LightestLiner));
        return lifted | Announce();
    }

    // What was taken for a load was none.
    private PanChange EndStir(Placing load)
    {
        var lifted = load.Announced ? Lift(load) : PanChange.None;
        load.IsStir = true;
        EndLoad();
        return lifted;
    }

    // A load on a bare pan: the liner if it lies still, an animal if it goes on moving.
    private PanChange OnBarePan(Placing load, Rest tare, double seconds)
    {
        if (recent.TryWindow(LinerStillSeconds, load.Seconds, out var window) && IsStill(window)
            && window.Median - tare.Grams <= HeaviestLiner)
        {
            LearnRise(window.Median - tare.Grams, seconds);
            EndLoad();
            SetRest(window.Median, window, lined: true);
            return Presume(load, tare);
        }

        if (IsSettling(load.Seconds) && settling.Level - tare.Grams <= HeaviestLiner)
        {
            LearnRise(settling.Level - tare.Grams, seconds);
            EndLoad();
            SetRest(settling.Level, WithRounding(settling.Error, stillDeviation), settling.Moment, lined: true);
            isSettling = true;
            return Presume(load, tare);
        }

        if (CutOff() is { } tail && EndOf(tail) is { } end)
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
        if (load.Peak > MostSway * Least)
            swayFrom = leftAt;
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
}
