using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Benchmarks.Settle.Baselines;

/// <summary>The first reading that the scale itself marks as stable.</summary>
internal sealed class StableFlag : IBaseline
{
    public double? Add(in ScaleSample sample, double net, bool loaded, double division) => loaded && sample.Stable == true ? net : null;

    public void Clear()
    {
    }
}
