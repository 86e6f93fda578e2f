using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Benchmarks.Settle.Baselines;

/// <summary>Five equal readings in a row.</summary>
internal sealed class EqualReadings : IBaseline
{
    private const int Wanted = 5;
    private decimal last;
    private int equal;

    public double? Add(in ScaleSample sample, double net, bool loaded, double division)
    {
        equal = equal > 0 && sample.Value == last ? equal + 1 : 1;
        last = sample.Value;
        return loaded && equal >= Wanted ? net : null;
    }

    public void Clear() => equal = 0;
}
