namespace CaptureAgent.Simulators.Physics;

/// <summary>Coloured noise of mean zero that forgets itself within a time constant: an Ornstein–Uhlenbeck process, stepped exactly.</summary>
public sealed class WanderingValue
{
    private readonly SeededRandom random;
    private readonly double keep;
    private readonly double renew;

    /// <param name="random">Its own stream.</param>
    /// <param name="deviation">Standard deviation in the long run.</param>
    /// <param name="seconds">Time in which its autocorrelation falls to 1/e.</param>
    public WanderingValue(SeededRandom random, double deviation, double seconds)
    {
        this.random = random;
        keep = Math.Exp(-SimulatedTime.StepSeconds / seconds);
        renew = deviation * Math.Sqrt(1 - (keep * keep));
        Value = deviation * random.Normal();
    }

    public double Value { get; private set; }

    public double Step() => Value = (keep * Value) + (renew * random.Normal());
}
