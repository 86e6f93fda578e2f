namespace CaptureAgent.Agent.Weighing;

/// <summary>Whether a level moves as a free animal does, or as under a force of its own: a draught, a towel that touches, a hand.</summary>
/// <remarks>
/// The two are weighed by their likelihoods (<see cref="Wander.Favour"/>), at knots of half a second, one and two, and asked for by how likely each is beforehand: about as heavy
/// as it should be most loads are free chicks; a load far off the expected weight is more often one with a hand or a bench under it than a chick that lost so much.
/// Chicks that hardly move have no shape; what is below any such force is an animal. The thresholds were chosen on simulated placings.
/// </remarks>
/// <param name="Seconds">Of the level, once the filter's tail is over.</param>
/// <param name="Motion">Standard deviation of its readings, bursts aside, in grams.</param>
internal readonly record struct AnimalEvidence(double Seconds, double Motion, Wander Quick, Wander Slow, Wander Slowest)
{
    /// <summary>So much of a level, from now back, is looked at; of one that is further off the expected weight more, for longer looking finds a quiet moment.</summary>
    private const double RecentSeconds = 10;

    private const double FurtherSeconds = 16;
    private const double LongestSeconds = 20;

    /// <summary>Relative distances from the expected weight.</summary>
    private const double Off = 0.04;

    private const double FarOff = 0.15;

    /// <summary>A towel or a hand that lifts takes some of the weight: only what is about as heavy as it should be is believed soon.</summary>
    private const double Lighter = 0.968;

    /// <param name="from">Index of the level's first reading after the filter's tail.</param>
    /// <param name="limit">Readings further off the level are a burst.</param>
    public static AnimalEvidence Of(ImpulseSeries series, int from, double grams, double expected, double limit, double division)
    {
        var now = series.MomentOf(series.Count - 1);
        var recent = IsOff(grams, expected, Off) ? FurtherSeconds : RecentSeconds;
        var span = now - series.MomentOf(from);
        return new AnimalEvidence(
            span,
            Deviation(series, from, grams, limit),
            span < RecentSeconds ? Wander.Of(series, from, Wander.QuickSeconds, grams, limit, division) : Since(recent, Wander.QuickSeconds),
            Since(recent, Wander.SlowSeconds),
            Since(LongestSeconds, Wander.SlowestSeconds));

        Wander Since(double seconds, double knot) => Wander.Of(series, Math.Max(from, series.IndexAt(now - seconds)), knot, grams, limit, division);
    }

    /// <summary>Seconds of a level from which on its means may be many.</summary>
    public const double LongSeconds = 8;

    /// <summary><see cref="Error"/> with a margin, for it is of few means, and is chosen among moments.</summary>
    public double LongError => Error * (1 + 2.0 / Slow.Count);

    /// <summary>Its means are so many that their scatter tells the error of all (batch means: Conway 1963, from memory), and that of the momentum, which knows nothing of cycles, is too large.</summary>
    public bool IsLong(double grams, double expected) => Seconds >= LongSeconds && Slow.Count >= 6 && !IsOff(grams, expected, Off);

    /// <summary>Standard error in grams that the wander leaves in a mean over the level.</summary>
    public double Error
    {
        get
        {
            // The slowest means see less of strides; but the smaller of two would be small by choice.
            var slow = Slow.Error(Math.Min(RecentSeconds, Seconds));
            return Slowest.Count < 4 ? slow : Math.Sqrt(slow * Slowest.Error(Math.Min(LongestSeconds, Seconds)));
        }
    }

    /// <summary>Standard error in grams that the wander leaves in a mean over the level, without what rare readings make of strides: that is in the error of their mean.</summary>
    public double ErrorBeyondSampling => Slow.Count < 2 ? 0 : (Slow with { Spread = Math.Sqrt(Math.Max(0, Slow.Spread * Slow.Spread - Slow.White * Slow.White)) }).Error(Math.Min(RecentSeconds, Seconds));

    /// <param name="expected">Grams; not a number where nothing is known.</param>
    /// <param name="lain">Seconds of the whole level.</param>
    public bool IsAnimal(double grams, double expected, double division, double lain)
    {
        if (IsOff(grams, expected, Off))
            return IsAnimalOff(grams, expected, division, lain);

        const double Small = 0.0015;
        var near = grams >= expected * Lighter;
        if (Seconds >= (near ? 1.9 : 3.9))
        {
            var small = Math.Max(Small * Math.Abs(grams), 0.1 * division);
            if (Slow.IsBelow(small) || Seconds < 6 && Quick.IsBelow(small) || IsUnresolved || Favour(division) >= Asked(near))
                return true;
        }

        return near && Seconds >= 1.4 && Motion <= Math.Max(Small * Math.Abs(grams), 0.35 * division);
    }

    private bool IsAnimalOff(double grams, double expected, double division, double lain)
    {
        const double Smallest = 0.0004;
        const double Largest = 0.002;
        var far = IsOff(grams, expected, FarOff);
        if (Seconds < 7 || Slowest.Count >= 3 && Slowest.Spread > Math.Max(Largest * Math.Abs(grams), 0.5 * division))
            return false;
        return Favour(division) >= (far ? 3 : 2)
            || Slow.IsBelow(Math.Max(Smallest * Math.Abs(grams), 0.1 * division))
            || !far && lain > 12 && Slow.Count >= 5 && IsUnresolved;
    }

    // Most free animals are weighed within their first seconds: what has not been is oftener something else than what has just come.
    private double Asked(bool near)
    {
        const double LateSeconds = 4;
        const double Late = 2;
        return Seconds > LateSeconds ? Late : near ? 0.2 : 1;
    }

    // Strides that the readings are too rare for: their shape tells nothing, and time must do.
    private bool IsUnresolved => Slow.IsSampling && Slow.White > 0.15 * Motion;

    private double Favour(double division) => Quick.Favour(Motion, division) + Slow.Favour(Motion, division) + Slowest.Favour(Motion, division);

    private static double Deviation(ImpulseSeries series, int from, double grams, double limit)
    {
        double sum = 0, squares = 0;
        var count = 0;
        for (var i = from; i < series.Count; i++)
        {
            var off = series.GramsOf(i) - grams;
            if (Math.Abs(off) > limit)
                continue;
            sum += off;
            squares += off * off;
            count++;
        }

        return count == 0 ? 0 : Math.Sqrt(Math.Max(0, squares - sum * sum / count) / count);
    }

    private static bool IsOff(double grams, double expected, double distance) => Math.Abs(Math.Log(Math.Max(grams, 1e-3) / expected)) >= distance;
}
