namespace CaptureAgent.Simulators.Physics.Chicks;

/// <summary>The vertical motion of a chick's centre of mass. The force it adds is mass × acceleration of a bounded motion, so its mean over time is zero.</summary>
/// <remarks>
/// Each step's acceleration is the change of velocity over the step: over any window the mean force is exactly the change of momentum over the window's length.
/// Shuffling is a damped oscillator driven by coloured noise (Newton, Gould and Kaiser, 1957, give the integral that sets its strength; from memory).
/// </remarks>
public sealed class ChickMotion
{
    private const double Damping = 0.4;
    private const double Step = SimulatedTime.StepSeconds;

    private readonly Temperament temperament;
    private readonly SeededRandom random;
    private readonly WanderingValue drive;
    private readonly WanderingValue breathPace;
    private readonly double stiffness;
    private readonly double friction;
    private readonly double breathSpeed;
    private double seconds;
    private double position, speed, amble;
    private double breathPhase;
    private double breathVelocity;
    private double activity;
    private bool active;
    private double switchAt;
    private double nextFlapAt;
    private FlapBurst burst;

    public ChickMotion(Temperament temperament, SeededRandom random)
    {
        this.temperament = temperament;
        this.random = random;
        var pace = 2 * Math.PI * temperament.ShuffleHertz;
        stiffness = pace * pace;
        friction = 2 * Damping * pace;
        var memory = 1 / (2 * pace);
        var force = temperament.ShuffleForce * SimulatedTime.Gravity;
        drive = temperament.AmbleSeconds > 0
            ? new(random.Fork(), force * temperament.AmbleSeconds * Math.Sqrt(2), temperament.AmbleSeconds)
            : new(random.Fork(), DriveFor(force, pace, memory), memory);
        breathPace = new(random.Fork(), 0.1, 5);
        breathSpeed = temperament.BreathForce * SimulatedTime.Gravity / (2 * Math.PI * temperament.BreathHertz);
        breathPhase = random.Between(0, 2 * Math.PI);
        breathVelocity = breathSpeed * Math.Cos(breathPhase);
        active = random.Chance(temperament.ActiveSeconds / (temperament.ActiveSeconds + temperament.RestSeconds));
        activity = active ? 1 : temperament.RestLevel;
        switchAt = NextSwitch();
        nextFlapAt = NextFlap();
        // Some strides of its own before it is looked at, so that it does not start at rest.
        for (var warm = 0; warm < 400; warm++)
            Shuffle();
    }

    /// <summary>Whether its wings beat at this moment.</summary>
    public bool IsFlapping => seconds < burst.End;

    /// <summary>Goes one step on; gives the mean acceleration in the step as a share of gravity (0.02: two per cent heavier).</summary>
    public double Advance()
    {
        if (seconds >= switchAt)
        {
            active = !active;
            switchAt = NextSwitch();
        }

        if (seconds >= nextFlapAt)
        {
            burst = new(seconds, random.Between(0.4, 1.8), random.Between(4, 9), temperament.FlapForce * random.Between(0.6, 1));
            nextFlapAt = seconds + burst.Seconds + Math.Max(0.5, NextFlap() - seconds);
        }

        activity += ((active ? 1 : temperament.RestLevel) - activity) * (Step / 0.3);
        var acceleration = Shuffle() + Breathe();
        if (IsFlapping)
            acceleration += (burst.VelocityAt(seconds + Step) - burst.VelocityAt(seconds)) / Step;
        seconds += Step;
        return acceleration / SimulatedTime.Gravity;
    }

    private double Shuffle()
    {
        if (temperament.AmbleSeconds > 0)
        {
            var before = speed;
            amble += (drive.Step() - amble) * (Step / temperament.AmbleSeconds);
            speed = activity * amble;
            return (speed - before) / Step;
        }

        var acceleration = (stiffness * ((activity * drive.Step()) - position)) - (friction * speed);
        speed += acceleration * Step;
        position += speed * Step;
        return acceleration;
    }

    private double Breathe()
    {
        breathPhase += 2 * Math.PI * temperament.BreathHertz * (1 + breathPace.Step()) * Step;
        var before = breathVelocity;
        breathVelocity = breathSpeed * Math.Cos(breathPhase);
        return (breathVelocity - before) / Step;
    }

    private double NextSwitch() => seconds + random.Exponential(active ? temperament.ActiveSeconds : temperament.RestSeconds);

    private double NextFlap() => temperament.FlapsPerMinute > 0
        ? seconds + random.Exponential(60 / temperament.FlapsPerMinute)
        : double.PositiveInfinity;

    /// <summary>The deviation of the drive that gives the wanted root mean square acceleration (m/s²) of the oscillator.</summary>
    private static double DriveFor(double acceleration, double pace, double memory)
    {
        var (d0, d1, d2, d3) = (pace * pace, (2 * Damping * pace) + (pace * pace * memory), 1 + (2 * Damping * pace * memory), memory);
        var variance = pace * pace * pace * pace * 2 * memory * d1 / (2 * d3 * ((d1 * d2) - (d0 * d3)));
        return acceleration / Math.Sqrt(variance);
    }
}
