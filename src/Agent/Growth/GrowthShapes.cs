using System.Collections.Concurrent;

namespace CaptureAgent.Agent.Growth;

/// <summary>The shapes that a parrot chick's growth can have: logarithms of weight by day of age, each but for its height.</summary>
/// <remarks>
/// Logistic and Gompertz curves over the rates and inflections that fits of 44 species' published weights have (logistic K 0.05 to 0.30 a day with K·ti
/// 1.6 to 4.4, Gompertz K about 0.6 of that with K·ti 0.7 to 2.6), and straight lines for the plateau and the slow loss at weaning
/// ("around 10 % from maximum just before fledging": Duerr and Gage 2020, p. 599).
/// </remarks>
internal static class GrowthShapes
{
    /// <summary>Ages beyond are taken as this one.</summary>
    public const int OldestDay = 140;

    private static readonly double[] Rates = [0.9, 1, 1.1], Losses = [0, 0.003, 0.006, 0.010];

    private static readonly double[] Slopes = [-0.012, -0.008, -0.004, 0];

    /// <summary>A straight line is a shape of the plateau, which no species reaches before this day.</summary>
    private const int FirstPlateauDay = 25;

    private const double LinePrior = -2.5, EarlyLinePrior = -5.5;

    /// <summary>What a species' own published curves count for, against all the others together.</summary>
    private const double OwnShare = 0.75;

    private static readonly ConcurrentDictionary<string, GrowthShape[]> BySpecies = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>The shapes that any parrot's growth can have.</summary>
    public static IReadOnlyList<GrowthShape> All { get; } = [.. Curves(), .. Lines()];

    /// <summary>Those, and before them the published curves of the species, some days early or late, somewhat slower or faster.</summary>
    public static IReadOnlyList<GrowthShape> For(string? species)
    {
        if (!ReferenceCurves.Of(species).Any())
            return All;
        return BySpecies.GetOrAdd(species!.Trim(), static name => WithOwn(name));
    }

    private static GrowthShape[] WithOwn(string species)
    {
        GrowthShape[] own = [.. ReferenceCurves.Of(species).SelectMany(curve => Own(curve.GramsAt, curve.Asymptote))];
        var lift = Math.Log(OwnShare / (1 - OwnShare) * All.Sum(shape => Math.Exp(shape.LogPrior)) / own.Sum(shape => Math.Exp(shape.LogPrior)));
        return [.. own.Select(shape => shape with { LogPrior = shape.LogPrior + lift }), .. All];
    }

    // After the peak it loses nothing, or up to a per cent a day, at first (20 % by day 92 in Groffen et al. 2008, 10 to 15 % usual at weaning).
    private static IEnumerable<GrowthShape> Own(Func<double, double> gramsAt, double asymptote)
    {
        const double PeakShare = 0.97, WholeLoss = 0.2;
        foreach (var rate in Rates)
        {
            for (var late = -4; late <= 4; late++)
            {
                double Grown(double day) => gramsAt(rate * (day - late));
                var peak = 0;
                while (peak < OldestDay && Grown(peak) < PeakShare * asymptote)
                    peak++;
                foreach (var loss in Losses)
                {
                    var shape = Table(day => Math.Log(Grown(Math.Min(day, peak))) + Math.Log(1 - Math.Min(WholeLoss, loss * Math.Max(0, day - peak))));
                    yield return new GrowthShape(shape, Normal(late, 0, 2) + Normal(rate, 1, 0.1));
                }
            }
        }
    }

    private static IEnumerable<GrowthShape> Curves()
    {
        const int RateSteps = 12, Logistics = 14, Gompertzes = 13;
        const double Slowest = 0.045, Fastest = 0.32, GompertzRate = 0.6;
        for (var i = 0; i < RateSteps; i++)
        {
            var rate = Slowest * Math.Pow(Fastest / Slowest, i / (RateSteps - 1.0));
            for (var j = 0; j < Logistics; j++)
            {
                var phase = 1.6 + 0.22 * j;
                yield return new GrowthShape(Table(day => -Math.Log(1 + Math.Exp(phase - rate * day))), Normal(phase, 2.9, 0.6));
            }

            for (var j = 0; j < Gompertzes; j++)
            {
                var phase = 0.7 + 0.16 * j;
                yield return new GrowthShape(Table(day => -Math.Exp(phase - GompertzRate * rate * day)), Normal(phase, 1.55, 0.45));
            }
        }
    }

    private static IEnumerable<GrowthShape> Lines() =>
        Slopes.Select(slope => new GrowthShape(Table(day => slope * day), LinePrior) { EarlyLogPrior = EarlyLinePrior, EarlyBefore = FirstPlateauDay });

    private static double[] Table(Func<int, double> logWeight) => [.. Enumerable.Range(0, OldestDay + 1).Select(logWeight)];

    private static double Normal(double value, double mean, double deviation) => -0.5 * Math.Pow((value - mean) / deviation, 2);
}

/// <summary>One shape of growth.</summary>
/// <param name="LogWeight">By day of age, from 0 to <see cref="GrowthShapes.OldestDay"/>, but for a constant.</param>
/// <param name="LogPrior">How usual the shape is, not normalised.</param>
internal sealed record GrowthShape(double[] LogWeight, double LogPrior)
{
    /// <summary>Where the shape is unusual for a young chick.</summary>
    public double? EarlyLogPrior { get; init; }

    public int EarlyBefore { get; init; }

    public double LogPriorFrom(int ageDays) => ageDays < EarlyBefore && EarlyLogPrior is { } early ? early : LogPrior;
}
