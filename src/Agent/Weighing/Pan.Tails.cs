namespace CaptureAgent.Agent.Weighing;

// What is still on its way behind a slow filter: where its tail will end, and where it would have ended when a hasty keeper's chick comes before.
internal sealed partial class Pan
{
    /// <summary>In which a tail is looked for.</summary>
    private const double TailSeconds = 2;

    /// <summary>The older end of a tail is steep: there a line whose moment is off by some milliseconds is off by more than the noise.</summary>
    private const double ShortTailSeconds = 1.2;

    /// <summary>Of a tail's newer part so many tell as much as all of it: twelve and more a second.</summary>
    private const int EnoughReadings = 15;

    /// <summary>Of what a tail had still to go, so much of it is uncertain (our own simulation of tubs); where the lines came in lumps their moments bend it, and all of it is.</summary>
    private const double UnseenShare = 0.3;

    /// <summary>A tail has about so much of its newest rise (over <see cref="TouchSeconds"/>) still to go, behind the slowest filters.</summary>
    private const double RiseToCome = 0.7;

    /// <summary>An end that is less certain, in grams, is none.</summary>
    private const double LeastCertain = 0.5;

    /// <summary>A rise that goes on for so long is a tail, no landing.</summary>
    private const double LeastTailSeconds = 1;

    private double fittedLevel = double.NaN, fittedSince;
    private bool isCovered;

    // Not still yet, for a slow filter's tail is not over; but its end is known.
    private bool IsSettling(double from)
    {
        if (recent.LastSeconds - fitted < FitSeconds)
            return false;
        fitted = recent.LastSeconds;
        var isFitted = settling.TryFit(recent, TailSeconds, 0, from, ReadingNoise) || ShorterTailWillDo() && settling.TryFit(recent, ShortTailSeconds, 0, from, ReadingNoise);
        if (!isFitted || settling.Error > Division || Math.Abs(settling.Left) > Math.Max(4 * Least, 0.05 * settling.Level) || IsSwing(from))
        {
            fittedLevel = double.NaN;
            return false;
        }

        // One end may be chance: two agree.
        var agrees = Math.Abs(settling.Level - fittedLevel) < 0.3 * Division + 2 * settling.Error && recent.LastSeconds - fittedSince > 0.15;
        if (double.IsNaN(fittedLevel))
            fittedSince = recent.LastSeconds;
        fittedLevel = settling.Level;
        return agrees;
    }

    // A tail has most of its way behind it: what would have more to go than it has come is a swing on its way up.
    private bool IsSwing(double from) =>
        recent.TryWindow(ShortTailSeconds, from, out var window) && Math.Abs(settling.Left) > Math.Max(Division, window.Range);

    // Of what lies there already, where the next thing may be touching down; what has only just come is fitted to its newest reading (IsSettling).
    private bool TryFitTare(double span, double from) => settling.TryFit(recent, span, TouchSeconds, from, ReadingNoise);

    // Where lines came in lumps their moments are less well known; where there are many a shorter tail tells as much.
    private bool ShorterTailWillDo() =>
        IsLate(TailSeconds) || recent.TryWindow(ShortTailSeconds, notBefore, out var window) && window.Count >= EnoughReadings;

    // Some line of the last seconds came late, in a lump with others.
    private bool IsLate(double seconds) => recent.LastSeconds - lateAt < seconds;

    // Where the chick comes before the liner is at rest, what was read before tells where it would have come to rest. Null where it is not to be told.
    private (double Level, double Error, double Moment)? EndOf(in CutTail tail)
    {
        if (!TryFitUntil(tail.Until, tail.From))
            return null;

        // What rose does not come to rest below its newest reading.
        var share = IsLate(TailSeconds) ? 1 : UnseenShare;
        var (level, moment) = (settling.Level + Math.Max(0, -settling.Left), settling.Moment);
        var error = Math.Max(settling.Error, share * Math.Max(RiseToCome * tail.Rise, Math.Abs(settling.Left)));
        error = Math.Max(error, TryFitUntil(tail.Earlier, tail.From) ? Math.Abs(settling.Level - level) : Division);
        return error <= LeastCertain && level - BareLevel > Least && level - BareLevel <= HeaviestLiner ? (level, error, moment) : null;
    }

    private bool TryFitUntil(double skip, double from)
    {
        var noise = IsLate(TailSeconds) ? 2 * ReadingNoise : ReadingNoise;
        return settling.TryFit(recent, TailSeconds, skip, from, noise) || settling.TryFit(recent, ShortTailSeconds, skip, from, noise);
    }

    // The pan rose ever more slowly, and now rises faster than it did just before. Null: it does not.
    private CutTail? CutOff()
    {
        var (now, grams) = recent.Back(0);
        var i = Older(0);
        if (i + 1 >= recent.Count)
            return null;
        var k = Older(i);
        var ((at, low), (before, lower)) = (recent.Back(i), recent.Back(k));
        var rise = Math.Max(0, low - lower) / (at - before);
        if (grams - low <= Least + 2 * rise * (now - at))
            return null;

        // From half its height on a tail rises all the way; a hand that holds a chick does not.
        for (k = i + 1; k < recent.Count && recent.Back(k).Grams > (low + BareLevel) / 2; k++)
        {
            if (recent.Back(k).Grams > recent.Back(k - 1).Grams + Division / 2)
                return null;
        }

        const double Nudge = 1e-6;
        var from = recent.Back(k - 1).Seconds;
        return at - from < LeastTailSeconds ? null : new CutTail(from, now - at - Nudge, now - recent.Back(i + 1).Seconds - Nudge, rise * TouchSeconds);
    }

    // The reading that is older by as long as a touch-down may have gone unseen.
    private int Older(int than)
    {
        var k = than + 1;
        while (k < recent.Count - 1 && recent.Back(than).Seconds - recent.Back(k).Seconds < TouchSeconds)
            k++;
        return k;
    }

    /// <param name="From">Seconds at which the tail begins.</param>
    /// <param name="Until">Seconds before the newest reading at which the next thing had not touched down yet.</param>
    /// <param name="Earlier">The same, one reading earlier.</param>
    /// <param name="Rise">Grams that it last rose in <see cref="TouchSeconds"/>.</param>
    private readonly record struct CutTail(double From, double Until, double Earlier, double Rise);
}
