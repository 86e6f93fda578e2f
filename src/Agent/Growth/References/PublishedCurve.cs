using CaptureAgent.Agent.Growth.Models;

namespace CaptureAgent.Agent.Growth.References;

/// <summary>A model with published parameters, or with those of a group's shape, led to the species' hatch weight where chicks are younger than the fit is good for.</summary>
/// <remarks>
/// Least squares on grams hardly see the first days: a fitted curve may miss the hatch weight by a factor of four, either way. So the ratio
/// of the two at day 0 fades to one by day 14, by the square of the days left. Measured weights of 15 series, read off the papers' figures, then lie
/// 17 % off at day 3 and 16 % at day 7 (root mean square of the logarithm; without, 27 % and 21 %), and 8 % at day 14, where nothing is changed.
/// </remarks>
/// <param name="AsymptoteError">Standard error of A, grams.</param>
/// <param name="RateError">Standard error of K, a day.</param>
/// <param name="Hatch">What a chick of the species weighs at hatching.</param>
internal sealed record PublishedCurve(GrowthModel Model, double[] Parameters, double AsymptoteError, double RateError, HatchWeight Hatch)
{
    /// <summary>From this day of age on the curve is the one that was fitted.</summary>
    public const int JoinedDay = 14;

    private double LogRatio => Math.Log(Hatch.Grams / Fitted(0));

    /// <summary>Grams at an age.</summary>
    public double Grams(double ageDays) => Fitted(ageDays) * Math.Exp(LogRatio * Left(ageDays) * Left(ageDays));

    /// <summary>Grams by the parameters alone.</summary>
    public double Fitted(double ageDays) => Model.Grams(ageDays, Parameters);

    private static double Left(double ageDays) => Math.Clamp(1 - ageDays / JoinedDay, 0, 1);
}
