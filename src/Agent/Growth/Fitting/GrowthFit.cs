using CaptureAgent.Agent.Growth.Models;

namespace CaptureAgent.Agent.Growth.Fitting;

/// <summary>A growth curve fitted to weights by age.</summary>
/// <param name="Parameters">As the model orders them.</param>
/// <param name="Unscaled">(J'J)^-1 at the parameters; null where the derivatives depend on each other.</param>
/// <param name="ResidualSd">sqrt(RSS / (n - p)), grams.</param>
/// <param name="Weights">How many weights were fitted.</param>
/// <param name="LeftOut">Places, in the series given, of weights that cannot belong to the curve; they were not fitted.</param>
/// <param name="Doubt">Why the parameters are not identifiable yet, as a sentence's end; null if they are.</param>
internal sealed record GrowthFit(
    GrowthModel Model, double[] Parameters, double[,]? Unscaled, double Rss, double ResidualSd, int Weights, IReadOnlyList<int> LeftOut, string? Doubt)
{
    public bool IsIdentifiable => Doubt is null;

    /// <summary>Why the weights do not show the end of growth yet, though a curve fits: see <see cref="EndOfGrowth"/>.</summary>
    public string? NoEnd { get; init; }

    /// <summary>Whether a keeper is told its parameters.</summary>
    public bool IsTold => WhyNotTold is null;

    /// <summary>As a sentence's end; null if they are told.</summary>
    public string? WhyNotTold => Doubt ?? NoEnd;

    /// <summary>The asymptote, grams.</summary>
    public double Asymptote => Parameters[0];

    /// <summary>The standard error of a parameter; infinite where there is none.</summary>
    public double StandardError(int parameter) =>
        Unscaled is { } unscaled ? ResidualSd * Math.Sqrt(unscaled[parameter, parameter]) : double.PositiveInfinity;

    public double Grams(double ageDays) => Model.Grams(ageDays, Parameters);

    /// <summary>Akaike's criterion with the correction for few weights (Hurvich and Tsai 1989), to compare models of one series.</summary>
    public double Aicc
    {
        get
        {
            var (n, k) = (Weights, Model.Parameters + 1);
            return n <= k + 1 ? double.PositiveInfinity : n * Math.Log(Rss / n) + 2.0 * k * n / (n - k - 1);
        }
    }
}
