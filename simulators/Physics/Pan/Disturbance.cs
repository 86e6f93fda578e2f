namespace CaptureAgent.Simulators.Physics.Pan;

/// <summary>A force that no load causes, while it lasts.</summary>
internal abstract class Disturbance(double start, double seconds)
{
    private const double EaseSeconds = 0.3;

    protected double Start => start;

    public double End => start + seconds;

    /// <summary>Mean force in the step that begins now, in grams.</summary>
    public abstract double Force(double now);

    /// <summary>Rises at the start and falls at the end, so that nothing jumps.</summary>
    protected double Ease(double now) => Math.Clamp(Math.Min(now - start, End - now) / EaseSeconds, 0, 1);

    public static Disturbance From(PanAction action, SeededRandom random) => action switch
    {
        Bump bump => new Knock(bump),
        Hum hum => new Tone(hum),
        Draught draught => new Wander(draught.At, draught.Seconds, 0, draught.Grams, 1.2, random),
        Lean lean => new Wander(lean.At, lean.Seconds, lean.Grams, lean.Wander, 0.8, random),
        _ => throw new ArgumentException($"{action.GetType().Name} is no disturbance.", nameof(action)),
    };

    // It lives a step longer than its swing, so that the fall to exactly zero is always part of it.
    private sealed class Knock(Bump bump) : Disturbance(bump.At, (8 * bump.DecaySeconds) + SimulatedTime.StepSeconds)
    {
        public override double Force(double now) => (Impulse(now + SimulatedTime.StepSeconds) - Impulse(now)) / SimulatedTime.StepSeconds;

        // Zero at the start and at the end: what goes in comes out.
        private double Impulse(double now)
        {
            var t = now - Start;
            return t <= 0 || t >= (8 * bump.DecaySeconds) - 1e-9 ? 0 : bump.Grams / (2 * Math.PI * bump.Hertz) * Math.Exp(-t / bump.DecaySeconds) * Math.Sin(2 * Math.PI * bump.Hertz * t);
        }
    }

    private sealed class Tone(Hum hum) : Disturbance(hum.At, hum.Seconds)
    {
        public override double Force(double now) => Ease(now) * hum.Grams * Math.Sin(2 * Math.PI * hum.Hertz * (now - Start));
    }

    private sealed class Wander(double start, double seconds, double grams, double deviation, double memory, SeededRandom random)
        : Disturbance(start, seconds)
    {
        private readonly WanderingValue wander = new(random, deviation, memory);

        public override double Force(double now) => Ease(now) * (grams + wander.Step());
    }
}
