using CaptureAgent.Benchmarks.Settle.Baselines;
using CaptureAgent.Simulators.Physics.Placings;

namespace CaptureAgent.Benchmarks.Settle;

/// <summary>Who is judged: the station first, then the three rules that are common practice, then a plain estimator.</summary>
internal static class Methods
{
    public const int Station = 0;

    public static IReadOnlyList<(string Name, Func<Placing, IBaseline> For)> Baselines { get; } =
    [
        ("stability flag", _ => new StableFlag()),
        ("five equal readings", _ => new EqualReadings()),
        ("moving SD", _ => new MovingDeviation()),
        ("plain estimator", placing => new PlainEstimator(placing.Scale, placing.ExpectedGrams)),
    ];

    public static IReadOnlyList<string> Names { get; } = ["capture agent", .. Baselines.Select(baseline => baseline.Name)];
}
