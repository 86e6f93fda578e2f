using CaptureAgent.Simulators.Physics.Pan;
using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Simulators.Physics;

/// <summary>A pan on a scale, in simulated time. Not safe for two threads at once.</summary>
/// <param name="pan">What presses.</param>
/// <param name="scale">What it shows.</param>
public sealed class WeighingSimulation(PanForces pan, GramScale scale)
{
    public PanForces Pan => pan;

    public GramScale Scale => scale;

    /// <summary>The readings from now up to <paramref name="seconds"/>, in order of time.</summary>
    public IEnumerable<ScaleSample> Until(double seconds)
    {
        while (pan.Seconds < seconds)
        {
            var now = pan.Seconds;
            if (scale.Step(now, pan.Step(), out var sample))
                yield return sample;
        }
    }
}
