namespace CaptureAgent.Simulators.Physics.Scales;

/// <summary>A scale's internal filter: one or two equal first-order stages. The first is exact for a force that is constant in a step, the second to the second order of the step.</summary>
public sealed class LowPass(double timeConstantSeconds, int order)
{
    private readonly double share = timeConstantSeconds <= 0 ? 1 : 1 - Math.Exp(-SimulatedTime.StepSeconds / timeConstantSeconds);
    private double first, second;

    public double Value => order == 1 ? first : second;

    public void Reset(double value) => first = second = value;

    public double Step(double input)
    {
        var before = first;
        first += (input - first) * share;
        second += (((before + first) / 2) - second) * share;
        return Value;
    }
}
