namespace CaptureAgent.Agent.Feeding.Probes;

/// <summary>Follows one probe through air, dips, moves and lifts, and says for each reading what it means. A rising probe reads low: it is never at rest.</summary>
internal sealed class ProbeTracker(LagMemory lag)
{
    /// <summary>Warmer than a room, colder than any formula that is fed (common practice, no source).</summary>
    public const double Warm = 30;

    /// <summary>A quick probe that was lifted for less than this has only been moved: ten seconds, and two in which its return shows.</summary>
    private const double ShortestLift = 12;

    /// <summary>The return of a slow probe shows later: by what its time constant has beyond so many seconds.</summary>
    private const double Quick = 5;

    /// <summary>A fall may have begun so long before it showed, in seconds.</summary>
    private const double LongestUnseenFall = 10;

    /// <summary>Change in the last seconds below which a probe can be at rest, °C.</summary>
    private const double RestChange = 0.25;

    /// <summary>What may be left to go at rest, and the standard uncertainty of the forecast, °C.</summary>
    private const double RestToGo = 0.2, RestDeviation = 0.2;

    private const int FewestReadings = 8;

    /// <summary>Where the steps are coarse a slow probe shows the same for seconds while it rises: so long it must not have changed.</summary>
    private const double CoarseRest = 10;

    /// <summary>A sheathed probe hardly moves for so long after the dip, in seconds.</summary>
    private const double UnseenStart = 0.9;

    /// <summary>What a batch can cool a second, °C (0.06 a minute at 20 °C above the room); what a probe at rest may seem to rise.</summary>
    private const double FastestCooling = 0.02, SlowRise = 0.01;

    /// <summary>A fit that has not come to rest by then is begun anew: what the probe is in changes.</summary>
    private const double LongestFit = 120;

    /// <summary>How far what the probe is put into may be from formula at 41 °C, and from the place it was in before, °C (no source): wide, so that readings decide, and not so wide that the first of them look like something at 55 °C.</summary>
    private const double OutsideDeviation = 5, WithinDeviation = 5;

    private readonly RecentReadings recent = new();
    private StepFit? fit;
    private double resolution = 0.1, asExpected, level, before, lowest, fallSeen, leftAt, highest, noise = 0.04;
    private int odd, visit;
    private bool fromOutside;

    public LagMemory Lag => lag;

    public ProbePlace Place { get; private set; } = ProbePlace.Out;

    /// <summary>Seconds at which a probe that is leaving counts as out.</summary>
    public double? OutAt => Place == ProbePlace.Leaving ? leftAt + LiftSeconds : null;

    private double LiftSeconds => ShortestLift + Math.Max(0, (Lag.ConstantSeconds ?? 0) - Quick);

    /// <summary>Seconds at which it was put where it is.</summary>
    public double DippedAt { get; private set; }

    /// <summary>What it showed before it was dipped, where that was still; else NaN: the room, if it was in air.</summary>
    public double Air { get; private set; } = double.NaN;

    /// <summary>At rest for so long that nothing of the rise is left in the readings: seven time constants leave a thousandth.</summary>
    public bool IsFullyRisen => Place == ProbePlace.AtRest && Now - DippedAt >= 4 + (7 * (Lag.ConstantSeconds ?? 8));

    /// <summary>The moving probe returns to where it was before it was lifted for a moment: nothing says that it is elsewhere.</summary>
    public bool Returning { get; private set; }

    public double IntervalSeconds => recent.Interval;

    /// <summary>Chance that what the probe is in is at least so warm.</summary>
    public double ChanceAtLeast(double celsius) => Place switch
    {
        ProbePlace.Moving when fit is not null => Math.Max(fit.ChanceAtLeast(celsius), recent[^1].Celsius >= celsius + (resolution / 2) && fit.Step > 0 ? 1 : 0),
        ProbePlace.AtRest => Normal.Cumulative((level - celsius) / RestUncertainty()),
        _ => 0,
    };

    /// <summary>The link was lost, or the probe taken out long enough.</summary>
    public void Leave()
    {
        Place = ProbePlace.Out;
        (fit, odd, Returning) = (null, 0, false);
    }

    /// <summary>Nothing of before counts any more: the link was lost.</summary>
    public void Forget()
    {
        Leave();
        recent.Clear();
    }

    public ProbeView Take(double seconds, double celsius, double step)
    {
        resolution = step;
        if (recent.Count > 0 && seconds - recent[^1].Seconds > Math.Max(10, 5 * recent.Interval))
            Forget();
        if (recent.Count > 0 && seconds <= recent[^1].Seconds)
            seconds = recent[^1].Seconds + 1e-3;
        recent.Add(seconds, celsius);
        switch (Place)
        {
            case ProbePlace.Out:
                WhileOut();
                break;
            case ProbePlace.Moving:
                WhileMoving();
                break;
            case ProbePlace.AtRest:
                WhileAtRest();
                break;
            default:
                WhileLeaving();
                break;
        }

        return View();
    }

    private double Latest => recent[^1].Celsius;

    private double Now => recent[^1].Seconds;

    // Steps so coarse that several readings in a row share one rounding.
    private bool IsCoarse => resolution > 0.2;

    private double LowTolerance => (0.75 * resolution) + (2 * noise);

    private double StepThreshold => Math.Max(0.4, 1.6 * resolution);

    private ProbeView View() => Place switch
    {
        ProbePlace.Moving => new(Place, IsWarm(), fit!.Mean, fit.Deviation, fit.Mean > fit.Now + (RestToGo / 2), visit),
        ProbePlace.AtRest => new(Place, level >= Warm - 2, level, RestUncertainty(), false, visit),
        _ => new(Place, false, double.NaN, double.NaN, false, visit),
    };

    private bool IsWarm() => Latest >= Warm || (fit!.Count >= 4 && Latest - before >= 3 && fit.ChanceAtLeast(Warm + 3) >= 0.99);

    private double RestUncertainty() => Math.Sqrt(0.03 * 0.03 + (noise * noise / 8));

    private void WhileOut()
    {
        if (recent.Count == 1)
        {
            if (Latest >= Warm)
                Begin(0, fresh: true, FormulaLess(0), OutsideDeviation);
            return;
        }

        var from = recent.Since(Math.Max(6, 3 * recent.Interval), 3);
        var low = recent.LastLow(from, LowTolerance);
        if (low < recent.Count - 1 && Latest - recent[low].Celsius >= StepThreshold && Latest >= recent[^2].Celsius)
        {
            RememberAir(low);
            fromOutside = true;
            Begin(low, fresh: false, FormulaLess(low), OutsideDeviation);
        }
        else if (Latest >= Warm && IsFlat())
        {
            var since = recent.Since(3, 4);
            Begin(since, fresh: true, FormulaLess(since), OutsideDeviation);
        }
    }

    // Warm and still without a step: it was put there while nobody looked.
    private bool IsFlat()
    {
        var span = IsCoarse ? 20 : 10;
        var from = recent.Since(span, FewestReadings);
        return recent[^1].Seconds - recent[from].Seconds >= span - 1 && recent.Spread(from) <= Math.Max(0.15, resolution * 0.5);
    }

    private void RememberAir(int low)
    {
        var from = low;
        while (from > 0 && recent[from - 1].Seconds >= recent[low].Seconds - 10)
            from--;
        var (least, most) = (double.PositiveInfinity, double.NegativeInfinity);
        for (var i = from; i <= low; i++)
            (least, most) = (Math.Min(least, recent[i].Celsius), Math.Max(most, recent[i].Celsius));
        var still = recent[low].Seconds - recent[from].Seconds >= 5 && most - least <= Math.Max(0.4, resolution);
        Air = still && least is > 5 and < 36 ? (least + most) / 2 : double.NaN;
    }

    // The mean of the readings that are no different from this one.
    private double LevelBefore(int last)
    {
        var from = last;
        while (from > 0 && last - from < 7 && Math.Abs(recent[from - 1].Celsius - recent[last].Celsius) <= LowTolerance)
            from--;
        return Math.Abs(recent.Mean(from, from + ((last + 2 - from) / 2)) - recent.Mean(from + ((last + 1 - from) / 2), last + 1)) < noise + (0.25 * resolution)
            ? recent.Mean(from, last + 1)
            : recent[last].Celsius;
    }

    // Readings from the last one at the old level on belong to the new place.
    private void Begin(int last, bool fresh, double step, double deviation)
    {
        var (at, old) = recent[last];
        var interval = recent.Interval;
        var rounding = (resolution * resolution / 12) + (noise * noise);
        var prior = new StepPrior(LevelBefore(last), step, deviation, Math.Sqrt(rounding), IsCoarse ? Math.Max(2, 2 / Math.Max(interval, 0.1)) : 1.5);
        var next = last + 1 < recent.Count ? recent[last + 1].Seconds : at;
        fit = fresh
            ? new StepFit(prior, Lag, at - 0.2, at)
            : new StepFit(prior, Lag, at - Math.Max(Math.Min(interval, 0.6), UnseenStart), next);
        for (var i = last; i < recent.Count; i++)
            fit.Add(recent[i].Seconds, recent[i].Celsius);
        if (Place == ProbePlace.Out)
            visit++;
        (before, highest, odd, DippedAt, asExpected) = (old, Latest, 0, at, Now);
        Place = ProbePlace.Moving;
    }

    private void WhileMoving()
    {
        var surprise = Latest - fit!.Expected(Now);
        fit.Add(Now, Latest);
        highest = Math.Max(highest, Latest);
        var rising = fit.Mean > fit.Now;
        if (rising && Latest <= highest - Math.Max(0.6, 1.6 * resolution) && Latest <= recent[^2].Celsius)
        {
            StartLeaving(highest);
            return;
        }

        if (Latest < Warm - 2 && fit.Count > FewestReadings && fit.Mean + (3 * fit.Deviation) < Warm)
        {
            Leave();
            return;
        }

        var limit = Math.Max(0.4, Math.Max(1.6 * resolution, 6 * noise));
        odd = fit.Count <= 6 || Math.Abs(surprise) < limit ? 0 : odd + (Math.Abs(surprise) > 3 * limit ? 2 : 1);
        if (odd == 0)
            asExpected = Now;
        if (odd >= 2)
            BeginAgain(recent.IndexAt(asExpected));
        else if (Now - DippedAt > LongestFit)
            BeginAgain(Math.Max(0, recent.Count - FewestReadings));
        else if (recent.Quickens(DippedAt) is { } since)
            BeginAgain(since);
        else if (IsSettled())
            Rest();
    }

    // What the probe is in has changed before it came to rest.
    private void BeginAgain(int last) => Begin(last, fresh: false, IsWarm() ? fit!.Mean - recent[last].Celsius : FormulaLess(last), OutsideDeviation);

    private bool IsSettled()
    {
        // Longer than the constant: a probe that still rises cannot change by so little in that time.
        var span = Math.Max(IsCoarse ? CoarseRest : 4, Math.Min(fit!.ConstantSeconds, 20));
        var from = recent.Since(span, FewestReadings);
        var slack = IsCoarse ? 0.2 * resolution : 0;
        return fit.Count >= FewestReadings
            && recent[from].Seconds >= DippedAt
            && Math.Abs(recent.Change(from)) <= RestChange + slack
            && Math.Abs(fit.Mean - fit.Now) <= RestToGo + (slack / 2)
            && fit.Deviation <= RestDeviation + slack;
    }

    private void Rest()
    {
        if (fit is { } dip && Math.Abs(dip.Step) >= 3 && fromOutside && dip.Mean >= Warm)
            Lag.Learn(dip);
        if (fit is not null)
            noise = Math.Clamp(Math.Sqrt(Math.Max(0, (fit.Noise * fit.Noise) - (resolution * resolution / 12))), 0.02, 0.3);
        if (fit is not null && fit.Mean < (highest >= Warm ? Warm - 2 : Warm))
        {
            Leave();
            return;
        }

        Place = ProbePlace.AtRest;
        (odd, Returning, fit) = (0, false, null);
        level = Average();
        (lowest, highest) = (level, level);
        fromOutside = false;
    }

    private double FormulaLess(int reading) => 41 - recent[reading].Celsius;

    private double Average() => recent.Mean(recent.Since(4, FewestReadings), recent.Count);

    private void WhileAtRest()
    {
        var old = level;
        level = Average();
        lowest = Math.Min(lowest + (SlowRise * recent.Interval), level);
        highest = Math.Max(highest - (FastestCooling * recent.Interval), level);
        var fallen = Latest <= old - Math.Max(0.5, 1.6 * resolution);
        var risen = Latest >= old + StepThreshold;
        odd = fallen ? Math.Min(odd, 0) - 1 : risen ? Math.Max(odd, 0) + 1 : 0;
        if (odd <= -2 || level <= highest - Math.Max(0.5, 1.6 * resolution))
        {
            StartLeaving(Math.Max(highest, Reference()));
        }
        else if (odd >= 2 || level - lowest >= Math.Max(0.35, 1.3 * resolution))
        {
            visit++;
            var last = Math.Max(0, recent.Count - (odd >= 2 ? 3 : 6));

            // No warmer than it was: a slow probe was lifted for so short that its fall was not seen.
            Returning = Latest <= highest + LowTolerance;
            Begin(last, fresh: false, Returning ? highest - recent[last].Celsius : 0, WithinDeviation);
        }
    }

    // The level before the fall began: the mean is already pulled down by it.
    private double Reference()
    {
        var from = recent.Since(6, FewestReadings + 2);
        var (most, count) = (0.0, 0);
        for (var i = from; i < Math.Max(from + 1, recent.Count - 3); i++)
        {
            most += recent[i].Celsius;
            count++;
        }

        return most / count;
    }

    private void StartLeaving(double from)
    {
        Place = ProbePlace.Leaving;
        before = from;
        fit = null;
        odd = 0;
        var i = recent.Count - 1;
        while (i > 0 && recent[i].Celsius < from - Math.Max(0.2, 0.6 * resolution))
            i--;
        fallSeen = recent[i].Seconds;
        leftAt = fallSeen - UnseenFall(from, i);
        lowest = Latest;
    }

    // A straight fall passed this much of itself before it was seen: a probe is slow in air, and a lift must not be taken for a later one.
    private double UnseenFall(double from, int seen)
    {
        var (hidden, fallen) = (from - recent[seen].Celsius, from - Latest);
        return hidden <= 0 || fallen <= hidden ? 0 : Math.Min(LongestUnseenFall, (Now - recent[seen].Seconds) * hidden / (fallen - hidden));
    }

    private void WhileLeaving()
    {
        lowest = Math.Min(lowest, Latest);
        if (Now >= leftAt + LiftSeconds)
        {
            Leave();
            WhileOut();
            return;
        }

        // Where the probe turns between air and formula it stands still for a while too.
        var turning = (IsCoarse ? 1.5 : 1) * (Lag.ConstantSeconds ?? 0);
        var from = recent.Since(Math.Clamp(turning, IsCoarse ? 8 : 6, LiftSeconds - 3), FewestReadings);
        if ((Latest - lowest >= StepThreshold && Latest >= recent[^2].Celsius) || (Now >= leftAt + LiftSeconds - 3 && RisesSlowly()))
        {
            var low = recent.LastLow(recent.Since(10, 3), LowTolerance);
            visit++;
            Returning = true;
            fromOutside = true;
            Begin(low, fresh: false, before - recent[low].Celsius, WithinDeviation);
        }
        else if (recent[from].Seconds > fallSeen + 2 && lowest >= Warm && recent.Spread(from) <= Math.Max(0.2, resolution))
        {
            visit++;
            Rest();
        }
    }

    // In air a probe only falls.
    private bool RisesSlowly() => recent.Change(recent.Since(4, 6)) >= Math.Max(0.15, Math.Max(4 * noise, 0.5 * resolution));
}
