namespace CaptureAgent.Benchmarks.Settle.Baselines;

/// <summary>Whether a window of <see cref="PlainEstimator"/> looks as if nobody touched the chick.</summary>
internal static class PlainHands
{
    /// <summary>Seconds after the load came at which no hand is on it any more.</summary>
    public const double LongestHold = 5.1;

    // Alone by its motion: a live chick on its feet, that weighs what it should.
    private const double LivelyShare = 0.004, LivelyDivisions = 1.2, LivelySeconds = 1.5, LivelyUnexpected = 0.03;
    private const int LivelyCrossings = 3;

    /// <summary>Of one that a hand was seen to leave.</summary>
    private const double ReleasedUnexpected = 0.12;

    // Alone by its weight, which a hand seldom hits.
    private const double ExpectedUnexpected = 0.028, ExpectedStillSeconds = 1, ExpectedKnownTo = 0.7 * 0.8;

    // No hand holds a chick at one level for longer.
    private const double LongSeconds = 5.1, LongStillSeconds = 5.2;

    // Not alone: a still window after livelier ones, unless it is long, or less long and at the expected weight.
    private const double ReturnAfter = 1.5, ReturnDeviations = 2.5, ReturnDivisions = 0.4, ReturnUnexpected = 0.015, ReturnSeconds = 3.2, ReturnUnexpectedSeconds = 5.2;

    /// <param name="window">Of readings.</param>
    /// <param name="elapsed">Seconds since the load came.</param>
    /// <param name="unexpected">How far its mean is from the expected weight: the logarithm of the ratio, without its sign.</param>
    public static bool AreOff(in PlainWindow window, double elapsed, double unexpected)
    {
        var sinceLoad = elapsed - window.Seconds;
        var isStill = window.IsStill;
        var (wasHeld, livelier) = window.Earlier();
        var isAlone = sinceLoad > LongestHold
            || IsLively(window, isStill, unexpected)
            || (wasHeld && unexpected < ReleasedUnexpected)
            || IsExpected(window, isStill, unexpected)
            || window.Seconds > (isStill ? LongStillSeconds : LongSeconds);
        return isAlone && !(sinceLoad > ReturnAfter && isStill && Returned(window, livelier, unexpected));
    }

    private static bool IsLively(in PlainWindow window, bool isStill, double unexpected) =>
        !isStill && window.Calm > Math.Max(LivelyShare * window.Mean, LivelyDivisions * window.Division)
        && window.Crossings >= LivelyCrossings && window.Seconds >= LivelySeconds && unexpected < LivelyUnexpected;

    private static bool IsExpected(in PlainWindow window, bool isStill, double unexpected) => unexpected < ExpectedUnexpected && (isStill
        ? window.Seconds >= ExpectedStillSeconds
        : window.Seconds >= LivelySeconds && window.Crossings >= LivelyCrossings && 2 * window.StandardError < ExpectedKnownTo * window.Band);

    private static bool Returned(in PlainWindow window, double livelier, double unexpected) =>
        livelier > ReturnDeviations * Math.Max(window.Deviation, ReturnDivisions * window.Division)
        && window.Seconds < (unexpected > ReturnUnexpected ? ReturnUnexpectedSeconds : ReturnSeconds);
}
