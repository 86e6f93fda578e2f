namespace CaptureAgent.Agent.Weighing;

/// <summary>Of all that was weighed of a load on the level that it was laid down to, the weight that is least likely to be wrong.</summary>
/// <remarks>
/// A chick that is taken again before its weight was sure enough to be told is either recorded with this one or not at all. Then more is allowed than while waiting costs nothing but seconds.
/// Who lay there for long had its chance: of that kind are towels that hang over, draughts and hands.
/// </remarks>
/// <param name="Seconds">When it was known.</param>
/// <param name="StandardError">From motion and settling, in grams, rounding included.</param>
/// <param name="Rounding">Of that, what rounding makes, in grams.</param>
/// <param name="Chance">That it would be a wrong record (<see cref="WrongChance"/>).</param>
internal readonly record struct Surest(double Seconds, double Grams, double StandardError, double Rounding, Motion Motion, double Chance)
{
    private const double MostChance = 0.04;

    /// <summary>Who was taken sooner may have been in a hand all the time.</summary>
    private const double ShortestSeconds = 5.5;

    private const double LongestSeconds = 14;

    /// <summary>Whether it is recorded when the load is lifted.</summary>
    /// <param name="placing">The load, with the readings up to the lift.</param>
    public bool WillDo(Placing placing) => Chance < MostChance && placing.Samples is [.., var last] && last.Seconds - placing.Seconds is > ShortestSeconds and < LongestSeconds;
}
