using CaptureAgent.Benchmarks.Settle.Baselines;

namespace CaptureAgent.Benchmarks.Settle;

/// <summary>Who is judged: the station first, then the three rules that are common practice.</summary>
internal static class Methods
{
    public const int Station = 0;

    public static IReadOnlyList<Func<IBaseline>> Baselines { get; } = [() => new StableFlag(), () => new EqualReadings(), () => new MovingDeviation()];

    public static IReadOnlyList<string> Names { get; } = ["capture agent", .. Baselines.Select(create => create().Name)];
}
