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

    private static readonly double[] Slopes = [-0.012, -0.008, -0.004, 0];

    /// <summary>A straight line is a shape of the plateau, which no species reaches before this day.</summary>
    private const int FirstPlateauDay = 25;

    private const double LinePrior = -2.5, EarlyLinePrior = -5.5;

    public static IReadOnlyList<GrowthShape> All { get; } = [.. Curves(), .. Lines()];

    private static IEnumerable<GrowthShape> Curves()
    {
        const int Rates = 12, Logistics = 14, Gompertzes = 13;
        const double Slowest = 0.045, Fastest = 0.32, GompertzRate = 0.6;
        for (var i = 0; i < Rates; i++)
        {
            var rate = Slowest * Math.Pow(Fastest / Slowest, i / (Rates - 1.0));
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
