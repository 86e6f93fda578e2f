namespace CaptureAgent.Agent.Weighing;

/// <summary>Whether a hand may still be on the chick, from the steps so far, the motion, and what the chick should weigh.</summary>
/// <remarks>
/// A hand may rest on the chick, almost still, for some five seconds after the placing and for some seconds before the lift (common practice, no source).
/// Its leaving shows: the weight comes in two stages, so that the rise takes longer than the fastest this scale has shown; or a level ends that was stiller, or further
/// from what the chick should weigh, than the one after it. A level that follows another without such a sign is a hand that came.
/// Where nothing shows, a level must have outlasted a hand; where the weight is off what the chick should have, by far. Where nothing is known of the chick, a heavier level
/// after a lighter one is likelier a hand that stopped supporting than one that came: it must outlast a hand, and no more.
/// </remarks>
internal sealed class HandEvidence
{
    /// <summary>Longest rest of a hand on the chick, with a margin for its leaving.</summary>
    public const double HandSeconds = 6.5;

    /// <summary>So long after the landing a level that is about as heavy as expected, and began with it, is no hand's: its leaving would have been seen.</summary>
    private const double FirstHandSeconds = 5.6;

    /// <summary>The same for what does not move at all: few hands rest so long, and none of them near the weight would be seen.</summary>
    private const double StillSeconds = 4.5;

    /// <summary>Longer than any hand rests before the lift.</summary>
    private const double LongSeconds = 12;

    /// <summary>So far below (logarithm), or above and as still as a thing: likelier a hand that stays, or a towel that hangs over, than a chick that lost so much. No hand carries a chick for so long (no source).</summary>
    private const double FarOff = 0.17;

    /// <summary>So far below, where it is as still as a thing.</summary>
    private const double StillFarBelow = 0.13;

    private const double LongestSeconds = 18;

    /// <summary>Shortest stretch after a leaving that was seen, and after one that was not.</summary>
    private const double SeenSeconds = 1.3;

    private const double UnseenSeconds = 2.4;

    /// <summary>A rise this much longer than the fastest had a stop in it.</summary>
    private const double StopSeconds = 0.45;

    /// <summary>A level this short is a hand that is just letting go, or a filter's tail: no chick is weighed and taken again in it.</summary>
    private const double LeastSeconds = 1.4;

    /// <summary>Relative distances from the expected weight: within a chick's day-to-day spread, and beyond it.</summary>
    private const double Near = 0.035;

    private const double Off = 0.065;

    /// <summary>Motion, relative to the weight, that shows at all.</summary>
    private const double FreeMotion = 0.0005;

    /// <summary>Less motion, so far off, is as still as a chick under a calming hand.</summary>
    private const double StillMotion = 0.001;

    private const double StillNear = 0.05;

    /// <summary>A chick that moves as it usually does, about as heavy as it should be, has no hand on it that would calm it: two or three strides and a margin.</summary>
    private const double UsualSeconds = 2.4;

    private const double Known = 0.025;

    /// <summary>Levels that a hand makes by lowering and letting go; more are a restless place.</summary>
    private const int FewLevels = 2;

    private double landed;
    private Plateau previous;
    private int levels;

    public bool Stepped { get; private set; }

    public void Clear()
    {
        landed = double.NaN;
        previous = default;
        levels = 0;
        Stepped = false;
    }

    /// <summary>Watches for the landing: a hand's time counts from there. Two blocks that nearly agree, or two seconds at the latest.</summary>
    public void Watch(Blocks blocks, double division)
    {
        if (!double.IsNaN(landed) || blocks.Count < 2)
            return;
        var (older, newer) = (blocks[^2], blocks[^1]);
        if (Math.Abs(newer.Mean - older.Mean) < Math.Max(2 * division, 0.08 * Math.Abs(newer.Mean)))
            Land(older.From);
        else if (newer.To - blocks[0].From > 2)
            Land(newer.From);
    }

    /// <summary>The chick has been lowered.</summary>
    public void Land(double seconds) => landed = seconds;

    /// <summary>A level ended.</summary>
    public void Leave(in Plateau plateau)
    {
        Stepped |= plateau.Seconds >= 1;
        if (plateau.Seconds < LeastSeconds)
            return;
        previous = plateau;
        levels++;
    }

    /// <param name="expected">Grams; not a number where nothing is known.</param>
    /// <param name="likeness">The level's motion beside the chick's on other mornings.</param>
    public bool Excluded(in Plateau here, double expected, Likeness likeness = Likeness.Unknown)
    {
        if (likeness == Likeness.Stiller && here.Seconds < HandSeconds + 1)
            return false;
        var off = here.DistanceTo(expected);
        var freed = levels > 0 && IsFreed(here, expected);
        var late = here.From - landed > HandSeconds - 1;
        var left = !late && (freed || here.Stop > StopSeconds);
        if (levels > 0 && !freed && double.IsNaN(off) && (here.Grams > previous.Grams || here.Motion > previous.Motion))
            return here.Seconds >= HandSeconds + 1;
        var isBelow = here.Grams < expected;
        if (off > FarOff && (isBelow || IsStill(here)) || off > StillFarBelow && isBelow && IsStill(here))
            return here.Seconds >= LongestSeconds;
        if (levels > 0 && !freed || off > Off && !left)
            return here.Seconds >= LongSeconds;
        if (IsStillAndOff(here, expected))
            return here.Seconds >= LongSeconds;
        if (off > Off)
            return here.Seconds >= HandSeconds + 1;
        if (left && off <= Near && levels <= FewLevels)
            return here.Seconds >= SeenSeconds;
        if (likeness == Likeness.Usual && off <= Known)
            return here.Seconds >= UsualSeconds;
        var total = here.To - landed;
        if (late)
            return here.Seconds >= HandSeconds;
        if (off > Near && !left)
            return total >= HandSeconds + 2 && here.Seconds >= HandSeconds;
        return total >= FirstHandSeconds && here.Seconds >= (off > Near ? 2 : 1) * UnseenSeconds;
    }

    /// <summary>A hand that came back looks so; a chick that sleeps, and is so far off what it should weigh, hardly ever.</summary>
    public static bool IsStillAndOff(in Plateau here, double expected) => here.DistanceTo(expected) > StillNear && IsStill(here);

    /// <summary>Nothing was seen of a hand, and nothing moves: as yet it may be one that holds the chick, whatever it weighs.</summary>
    public bool IsStillUnseen(in Plateau here) => levels == 0 && here.Stop <= StopSeconds && IsStill(here) && here.To - landed < StillSeconds;

    /// <summary>The level that the chick was laid down to, or the one that a hand left: none that a hand came to.</summary>
    public bool IsFirst(in Plateau here, double expected) => levels == 0 || levels == 1 && IsFreed(here, expected);

    private static bool IsStill(in Plateau here) => here.Motion < StillMotion * here.Grams;

    /// <summary>When the chick had been lowered; not a number before that.</summary>
    public double Landed => landed;

    /// <summary>Adds what is known of a hand.</summary>
    public void Show(Signs signs, in Plateau here, double expected)
    {
        signs.Add(here.Seconds).Add(here.Stop).Add(here.Motion / here.Grams).Add(here.To - landed).Add(levels).Add(levels > 0 && IsFreed(here, expected));
        var none = levels == 0;
        signs.Add(none ? double.NaN : Math.Log(previous.Grams / here.Grams)).Add(none ? double.NaN : previous.Stop)
            .Add(none ? double.NaN : previous.Seconds).Add(none ? double.NaN : previous.Motion / here.Grams);
    }

    // The level before was further from the weight, or a calming hand's.
    private bool IsFreed(in Plateau here, double expected)
    {
        var nearer = previous.DistanceTo(expected) - here.DistanceTo(expected);
        if (previous.Stop > StopSeconds)
            return nearer > 0.04 && (previous.DistanceTo(expected) > 0.12 || here.Motion > previous.Motion);
        return nearer > 0.02 || nearer is not < -0.01 && here.Motion > Math.Max(2 * previous.Motion, FreeMotion * here.Grams);
    }
}
