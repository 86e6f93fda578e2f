namespace CaptureAgent.Agent.Weighing;

/// <summary>A much lower level that lay there before the load: a liner laid on top, something that fell there, or a hand that carried nearly all.</summary>
/// <param name="Grams">Not a number: there was none.</param>
/// <param name="IsStill">It lay as still as a thing.</param>
/// <param name="Seconds">How long it lay there.</param>
internal readonly record struct LowPlateau(double Grams, bool IsStill, double Seconds = 0)
{
    public static LowPlateau None { get; } = new(double.NaN, false);

    /// <summary>Odds at which the lower level is taken for no part of the chick.</summary>
    private const double Odds = 100;

    /// <summary>No hand carries so much of a chick for so long: it lay there, whatever it was.</summary>
    /// <param name="net">The load, this level included, in grams.</param>
    public bool OutlastsHand(double net) => Seconds >= HandEvidence.HandSeconds && Grams < 0.5 * net;

    /// <summary>Whether a load is too heavy by just this level.</summary>
    /// <param name="net">The load, this level included, in grams.</param>
    /// <param name="expected">What the chick should weigh, in grams.</param>
    public bool MakesUp(double net, double expected) => net > expected && DaySpread.LogOdds(net - Grams, net, expected) > Math.Log(Odds);
}
