namespace CaptureAgent.Benchmarks.Thrive.Bound;

/// <summary>What <see cref="JointBound"/> looks for, as <see cref="Disturbance"/> does it.</summary>
internal static class Faults
{
    /// <summary>ln of the weight with a full crop beside without, all alike likely.</summary>
    public static double[] FullCrops { get; } = [.. Enumerable.Range(4, 7).Select(percent => Math.Log(1 + percent / 100.0))];

    /// <summary>Missing each day of ln(weight): a share of the gain, and so much besides; how likely.</summary>
    public static (double Share, double Besides, double Probability)[] Shortfalls { get; } =
        [(0.5, 0, 1), (1, 0, 1), (1, 0.02, 1 / 3.0), (1, 0.03, 1 / 3.0), (1, 0.04, 1 / 3.0)];
}
