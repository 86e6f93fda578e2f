namespace CaptureAgent.Simulators.Physics.Chicks;

/// <summary>A burst of wing beats: the body bobs with the beats and rises and sinks once. It ends where and as it began, so its net impulse is zero.</summary>
/// <remarks>A whole number of beats under a sin² window: both the velocity and the displacement are back at zero at the end.</remarks>
internal readonly struct FlapBurst
{
    private readonly double start;
    private readonly double beatSpeed;
    private readonly double riseSpeed;
    private readonly double beatHertz;

    /// <param name="start">Seconds.</param>
    /// <param name="seconds">Length.</param>
    /// <param name="beatHertz">Wing beats a second; rounded so that whole beats fill the burst.</param>
    /// <param name="force">Peak force of a beat as a share of the weight.</param>
    public FlapBurst(double start, double seconds, double beatHertz, double force)
    {
        this.start = start;
        Seconds = seconds;
        this.beatHertz = Math.Max(2, Math.Round(beatHertz * seconds)) / seconds;
        beatSpeed = force * SimulatedTime.Gravity / (2 * Math.PI * this.beatHertz);
        riseSpeed = 0.3 * force * SimulatedTime.Gravity * seconds / (2 * Math.PI);
    }

    public double Seconds { get; }

    public double End => start + Seconds;

    /// <summary>Velocity of the body's centre of mass in m/s, up is positive; zero before and after.</summary>
    public double VelocityAt(double seconds)
    {
        var t = seconds - start;
        if (t <= 0 || t >= Seconds)
            return 0;
        var window = Math.Sin(Math.PI * t / Seconds);
        return (window * window * beatSpeed * Math.Sin(2 * Math.PI * beatHertz * t))
            + (riseSpeed * Math.Sin(2 * Math.PI * t / Seconds));
    }
}
