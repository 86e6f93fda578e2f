namespace CaptureAgent.Agent.Weighing;

/// <summary>Whether a level is known well enough to be a weight, hands aside.</summary>
/// <param name="Band">Acceptance band, in grams.</param>
/// <param name="Here">The level.</param>
/// <param name="Expected">Grams that the chick should weigh; not a number where nothing is known.</param>
/// <param name="IsRare">Its readings are too rare to show strides, and were averaged (<see cref="BoutMean"/>).</param>
internal readonly record struct Acceptance(double Band, Plateau Here, double Expected, bool IsRare = false)
{
    /// <summary>Relative distance from the expected weight that a chick's day brings: further off, the level must prove itself.</summary>
    private const double Near = 0.035;

    /// <summary>A tare that is known no better than to this share of the band: no weight on it is known within the band.</summary>
    private const double MostTare = 0.75;

    // A distance that is not known is no nearness.
    private bool IsOff => !(Here.DistanceTo(Expected) < Near);

    /// <summary>Standard errors that must fit into the band: more at first, for the first moment at which an error looks small is chosen because it does.</summary>
    /// <remarks>The error of rare readings is that of all of the level and hardly jumps, so that less must fit at last; strict at first and less so at last, the chances of a wrong
    /// decision add up to no more (O'Brien and Fleming 1979, from memory).</remarks>
    private double Coverage => IsRare
        ? Here.Seconds > 14 ? 1.7 : Here.Seconds > 8 ? 2.05 : 2.3
        : Here.Seconds > 14 ? 1.9 : Here.Seconds > 8 ? 2.1 : 2.2;

    /// <param name="seconds">Of the stretch that was averaged.</param>
    /// <param name="error">What waiting can better, in grams.</param>
    /// <param name="tare">Standard uncertainty of the tare, in grams: it takes its part of the band, but waiting does not better it.</param>
    public bool Allows(double seconds, double error, double tare)
    {
        var left = Math.Max(0.5 * Band, Math.Sqrt(Math.Max(0, Band * Band - Coverage * Coverage * tare * tare)));
        return IsTareKnown(tare) && Coverage * error <= left && seconds >= LeastSeconds;
    }

    /// <summary>The expanded uncertainty (k = 2, JCGM 100) of what waiting can better is within the band.</summary>
    /// <param name="error">Standard error in grams.</param>
    public bool Holds(double error) => 2 * error <= Band;

    public bool IsTareKnown(double tare) => tare <= MostTare * Band;

    /// <summary>A moving animal is watched for two cycles at least, and a quiet moment of a restless level is not taken for the whole.</summary>
    public double LeastSeconds => Math.Max(
        Here.Motion > 0.4 * Band ? Math.Max(2, 0.5 * Math.Min(Here.Seconds, 10)) : 1,
        IsOff ? Math.Min(4, 0.6 * Here.Seconds) : 0);
}
