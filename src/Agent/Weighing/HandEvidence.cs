namespace CaptureAgent.Agent.Weighing;

/// <summary>A level between two steps.</summary>
/// <param name="Motion">Typical standard deviation of its readings within a block, in grams, beyond what rounding and the scale make.</param>
internal readonly record struct Plateau(double From, double Seconds, double Grams, double Motion);

/// <summary>Whether a hand may still be on the chick, from the steps so far, the motion, and what the chick should weigh.</summary>
/// <remarks>
/// A hand may rest on the chick, almost still, for some five seconds after the placing and for some seconds before the lift (common practice, no source).
/// Its leaving shows: the weight comes in two stages, so that the rise takes longer than the fastest this scale has shown.
/// Where nothing shows, a level must have outlasted a hand; where the weight is off what the chick should have, by far.
/// </remarks>
internal sealed class HandEvidence
{
    /// <summary>Longest rest of a hand on the chick, with a margin for its leaving.</summary>
    public const double HandSeconds = 6.5;

    /// <summary>Longer than any hand rests: of a level much stiller than the motion before it, or off the expected weight.</summary>
    private const double LongSeconds = 12.5;

    /// <summary>Shortest stretch after a leaving that was seen, and after one that was not.</summary>
    private const double SeenSeconds = 2.0;

    private const double UnseenSeconds = 2.4;

    /// <summary>A rise this much longer than the fastest had a stop in it.</summary>
    private const double StopSeconds = 0.6;

    /// <summary>Relative distances from the expected weight: within a chick's day-to-day spread, and beyond it.</summary>
    private const double Near = 0.05;

    private const double Off = 0.065;

    /// <summary>Motion, relative to the weight, that no resting hand lets through.</summary>
    private const double FreeMotion = 0.0015;

    private double landed;
    private Plateau previous;

    public bool Landed => !double.IsNaN(landed);

    public bool Stepped { get; private set; }

    public void Clear()
    {
        landed = double.NaN;
        previous = default;
        Stepped = false;
    }

    /// <summary>The chick has been lowered: from here on a hand's time counts.</summary>
    public void Land(double seconds) => landed = seconds;

    /// <summary>A level ended.</summary>
    public void Leave(in Plateau plateau)
    {
        if (plateau.Seconds < 1)
            return;
        Stepped = true;
        previous = plateau;
    }

    /// <param name="stop">Seconds that the rise took beyond the fastest rise; not a number where none is known.</param>
    /// <param name="expected">Grams; not a number where nothing is.</param>
    public bool Excluded(in Plateau here, double stop, double expected)
    {
        var total = here.From + here.Seconds - landed;
        var late = here.From - landed > HandSeconds - 1;
        var off = double.IsNaN(expected) ? double.NaN : Math.Abs(Math.Log(here.Grams / expected));
        var before = previous.Seconds > 0 ? Math.Abs(Math.Log(Math.Max(previous.Grams, 1e-3) / expected)) : double.NaN;
        var left = !late && (stop > StopSeconds || before > off + 0.02);
        if (left && off <= Near)
            return here.Seconds >= SeenSeconds;

        // What came after a livelier level, or after one nearer to the expected weight, is a hand that came.
        var came = previous.Seconds >= 1.5 && (here.Motion < 0.4 * previous.Motion && here.From - landed > 3 || before < off - 0.01);
        var lively = here.Motion > FreeMotion * here.Grams;
        if (left && !came)
            return total >= HandSeconds && here.Seconds >= (off > Off ? HandSeconds : UnseenSeconds);
        if (came || off > Off || off > 0.035 && !lively)
            return total >= LongSeconds && here.Seconds >= (late ? LongSeconds : HandSeconds);
        if (late)
            return here.Seconds >= (off <= Near && lively ? UnseenSeconds : HandSeconds);
        return total >= HandSeconds && here.Seconds >= UnseenSeconds;
    }
}
