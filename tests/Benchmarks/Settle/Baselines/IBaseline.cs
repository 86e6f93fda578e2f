using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Benchmarks.Settle.Baselines;

/// <summary>A rule for when a scale's value is taken; made anew for every placing.</summary>
internal interface IBaseline
{
    /// <summary>Takes a reading that was within range; gives grams above the tare once the rule is met.</summary>
    /// <param name="sample">As shown.</param>
    /// <param name="net">Grams above the tare.</param>
    /// <param name="loaded">Whether it is more than an empty pan can show.</param>
    /// <param name="division">In grams.</param>
    double? Add(in ScaleSample sample, double net, bool loaded, double division);

    /// <summary>The scale was out of range.</summary>
    void Clear();
}
