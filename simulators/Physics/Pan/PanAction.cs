namespace CaptureAgent.Simulators.Physics.Pan;

/// <summary>Something that happens at or around the pan, at a moment of simulated time.</summary>
/// <param name="At">Seconds.</param>
public abstract record PanAction(double At);

/// <summary>A hand changes how much of a load it carries: the whole life of a load on the pan is a row of these.</summary>
/// <param name="At">When the change begins.</param>
/// <param name="Load">Whose.</param>
/// <param name="Seconds">How long it takes.</param>
/// <param name="Support">Share of the weight in the hand from then on: 1 carried, 0 let go, below 0 pressed down.</param>
public sealed record Grip(double At, string Load, double Seconds, double Support) : PanAction(At)
{
    /// <summary>Standard deviation of the hand's own wander, as a share of the weight.</summary>
    public double Unsteadiness { get; init; }

    /// <summary>How much of the chick's motion the hand takes away while it touches.</summary>
    public double Calming { get; init; } = 0.85;

    /// <summary>A landing's first swing beyond the new level, as a share of the weight.</summary>
    public double Overshoot { get; init; }
}

/// <summary>The chick leaves something behind: no change of the load on the pan, but what the chick takes away with it is less.</summary>
public sealed record Dropping(double At, string Load, double Grams) : PanAction(At);

/// <summary>A knock against the bench: a swing that dies away, of net impulse zero.</summary>
/// <param name="At">When.</param>
/// <param name="Grams">Its first peak.</param>
/// <param name="Hertz">Of the bench.</param>
/// <param name="DecaySeconds">In which the swing falls to 1/e.</param>
public sealed record Bump(double At, double Grams, double Hertz = 6, double DecaySeconds = 0.15) : PanAction(At);

/// <summary>A door opens: air presses and lifts, slowly and at random.</summary>
public sealed record Draught(double At, double Seconds, double Grams) : PanAction(At);

/// <summary>A fan's hum; sampled at a rate near a divisor of its frequency it becomes a slow beat.</summary>
public sealed record Hum(double At, double Seconds, double Grams, double Hertz) : PanAction(At);

/// <summary>Something rests on the pan or hangs over its edge: a hand that steadies it, a towel that touches the bench.</summary>
/// <param name="At">When.</param>
/// <param name="Seconds">How long.</param>
/// <param name="Grams">Mean force; below zero: it lifts.</param>
/// <param name="Wander">Standard deviation about it.</param>
public sealed record Lean(double At, double Seconds, double Grams, double Wander) : PanAction(At);
