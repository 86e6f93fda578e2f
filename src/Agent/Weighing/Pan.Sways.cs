namespace CaptureAgent.Agent.Weighing;

// What lies there at rest sways about its level: under a fan, on a bench that rocks.
internal sealed partial class Pan
{
    /// <summary>In which a sway is looked for: the longest that shows one tells its level best, and where it has only begun the shorter ones do.</summary>
    private static readonly double[] SwaySpans = [7, 4, 2.5];

    /// <summary>A sway that was seen goes on for so long, though a fit fails.</summary>
    private const double SwayStays = 1.5;

    /// <summary>Crests and troughs so far apart, in levels that differ (<see cref="Least"/>), are of one sway.</summary>
    private const double MostSway = 4;

    /// <summary>Levels that follow one another in so many seconds.</summary>
    private const double SwayLasts = 20;

    private double swaysBy, swayFrom, swaySeen, swayed = double.NegativeInfinity;

    // Crest and trough of a sway are levels of their own, one after the other.
    private bool MaySway(double level)
    {
        var seconds = recent.LastSeconds - swayFrom;
        return before is { } last && Math.Abs(level - last.Grams) < MostSway * Least && seconds < SwayLasts
            && recent.TryWindow(Math.Min(SwaySpans[0], seconds) - 0.1, swayFrom, out var since) && since.Range < MostSway * Least;
    }

    // A liner that sways is known by whole cycles, not by its crest; of less than half a cycle nothing is known.
    private void FollowSway()
    {
        if (!IsTimeForSway())
            return;
        if (TryFitSway(Math.Max(notBefore, swayFrom)))
            Rest = Rest! with { Grams = sway.Level, Uncertainty = SwayUncertainty, Moment = sway.Moment };
        else if (recent.LastSeconds - swaySeen > SwayStays)
            swaysBy = 0;
    }

    // The rest was left for a trough, or for a chick whose droppings stayed, and comes back as a sway.
    private bool SwaysAsBefore() =>
        !suspect && before is { } last && IsTimeForSway() && TryFitSway(swayFrom)
        && (Math.Abs(sway.Level - last.Grams) < Least || last.Lined && Lifted is { } chick && MayBeSoiled(last, sway.Level, chick));

    // A trough was the tare, and what came is the sway that goes on: its troughs are there again and again.
    private bool IsCrest(Placing load, Rest tare) =>
        load.Peak < MostSway * Least && IsTimeForSway() && TryFitSway(swayFrom) && Math.Abs(sway.Level - sway.Amplitude - tare.Grams) < Math.Max(Division, 0.3 * sway.Amplitude);

    private PanChange Sways(Placing load, Rest tare)
    {
        var lifted = EndStir(load);
        RestOnSway(tare.Lined);
        return lifted | Announce();
    }

    private void RestOnSway(bool lined)
    {
        SetRest(sway.Level, SwayUncertainty, sway.Moment, lined);
        swaysBy = sway.Amplitude;
    }

    private bool IsTimeForSway()
    {
        if (recent.LastSeconds - swayed < FitSeconds || !(recent.LastSeconds - swayFrom > Sway.LeastSeconds + TouchSeconds))
            return false;
        swayed = recent.LastSeconds;
        return true;
    }

    private double SwayUncertainty => WithRounding(sway.Error, sway.Amplitude / Math.Sqrt(2));

    // What comes to rest behind the filter is no sway.
    private bool TryFitSway(double from)
    {
        foreach (var span in SwaySpans)
        {
            var seconds = Math.Min(span, recent.LastSeconds - from);
            if (seconds < Sway.LeastSeconds + TouchSeconds || !recent.TryWindow(seconds - 0.1, from, out var window) || window.Range <= 2 * Division + 1e-9)
                return false;
            if (settling.TryFit(recent, span, TouchSeconds, from, RoundingNoise))
                return false;
            if (window.Range > 2 * MostSway * Least || !sway.TryFit(recent, span, TouchSeconds, from, RoundingNoise) || sway.Amplitude > window.Range)
                continue;
            (swaysBy, swaySeen) = (sway.Amplitude, recent.LastSeconds);
            return true;
        }

        return false;
    }
}
