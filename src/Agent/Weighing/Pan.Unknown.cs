namespace CaptureAgent.Agent.Weighing;

// Nothing is known to lie on the pan: what comes to rest there is the bare pan or a liner; what does not is a load.
internal sealed partial class Pan
{
    private PanChange InUnknown(double seconds)
    {
        if (LinerIsGone())
            (taken, before, movingSince, bareSeen) = (TakenFrom(before), null, double.NaN, new Rest(seconds, BareLevel, Division, Lined: false));
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
            SetRest(window.Median, window, lined: above > LeastLiner);
            return ConsiderDoubt(wasSuspect) | Announce();
        }

        if (SwaysAsBefore())
        {
            movingSince = double.NaN;
            RestOnSway(lined: sway.Level - BareLevel > LeastLiner);
            return ConsiderDoubt(wasSuspect: false) | Announce();
        }

        if (IsSettling(notBefore) && (before is null ? settling.Level - BareLevel <= HeaviestLiner : Math.Abs(settling.Level - before.Grams) < Least))
        {
            movingSince = double.NaN;
            var wasSuspect = suspect;
            SetRest(settling.Level, WithRounding(settling.Error, stillDeviation), settling.Moment, lined: settling.Level - BareLevel > LeastLiner);
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
        if (seconds - movingSince <= patience || window.Mean <= Least)
            return PanChange.None;
        if (!HumsSteadily(ref window) && !HumsOnSoiled(ref window))
            return Found(seconds, window);
        movingSince = double.NaN;
        SetRest(window.Median, window, lined: true);
        return Announce();
    }

    // The pan was seen bare, however shortly, so that what comes next is another liner. Where the liner was only presumed to be one, it must come to rest without it.
    private bool LinerIsGone() =>
        !suspect && before is { Lined: true, Bare: null } liner && liner.Grams - BareLevel > 2 * Least && Math.Abs(lastGrams - BareLevel) <= Least;

    // In one direction: a tail behind a slow filter.
    private bool ComesToRest(in Window window) => window.Range <= Math.Max(Least, 2.5 * Math.Abs(window.Change));

    private bool ReturnedTo(Rest? last) => last is not null && !suspect && Math.Abs(lastGrams - last.Grams) < Least;

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
    private bool HumsStill(ref Window window) => recent.OpeningRange >= 2 * Division && StraysAboutALevel(ref window, MostUnrest);

    // It lay there at the start, under a fan: about one level, and as light as a liner. Were it an animal, it could not be weighed either, for nobody saw the pan without it.
    private bool HumsSteadily(ref Window window) => window.Mean <= HeaviestLiner && StraysAboutALevel(ref window, MostHum);

    // The fan came up while the chick lay there, and its droppings stayed.
    private bool HumsOnSoiled(ref Window window)
    {
        if (suspect || before is not { Lined: true } last || Lifted is not { } chick || !TryHum(MostHum, out var longer) || !MayBeSoiled(last, longer.Mean, chick))
            return false;
        window = longer;
        return true;
    }

    private bool MayBeSoiled(Rest last, double level, Placing chick)
    {
        const double DroppingsShare = 0.03;
        return Math.Abs(level - last.Grams) <= Math.Max(Least, Math.Min(ThingGrams, DroppingsShare * chick.Peak));
    }

    // Before anything was known of this pan.
    private bool StraysAboutALevel(ref Window window, double most)
    {
        if (before is not null || !double.IsNaN(bare) || !TryHum(most, out var longer))
            return false;
        window = longer;
        stillDeviation = Math.Max(stillDeviation, longer.Deviation);
        return true;
    }

    /// <summary>A stronger hum, in grams (standard deviation), may be an animal.</summary>
    private double MostHum => Math.Max(0.5, 3 * Division);

    private bool TryHum(double most, out Window window)
    {
        const double Span = 2.5;
        const int LeastReadings = 5;
        return recent.TryWindow(Span, notBefore, out window)
            && window.Count >= LeastReadings && window.Deviation <= most && Math.Abs(window.Change) <= Math.Max(Division, window.Deviation);
    }

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
            // The pan was seen without the liner, but not for long enough to be at rest.
            var tare = suspect ? null : bareSeen;
            Load = new Placing(seconds, tare, history) { HastyTare = tare is not null, Announced = true, Animal = true };
            Begin(Load, seconds, tare);
        }

        Load.UnitChanged = unitSwitched;
        (unitSwitched, bareSeen) = (false, null);
        lowSince = double.NaN;
        return PanChange.Placed;
    }
}
