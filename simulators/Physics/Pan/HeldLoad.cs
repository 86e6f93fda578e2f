using CaptureAgent.Simulators.Physics.Chicks;

namespace CaptureAgent.Simulators.Physics.Pan;

/// <summary>A load with the hand that carries, holds, frees or presses it.</summary>
internal sealed class HeldLoad
{
    private const double HandMemorySeconds = 0.5;

    private readonly ChickMotion? motion;
    private readonly WanderingValue hand;
    private double rampStart, rampSeconds = 1;
    private double supportFrom = 1, supportTo = 1;
    private double freedomFrom, freedomTo;
    private double unsteadyFrom, unsteadyTo;
    private double overshoot;

    public HeldLoad(PanLoad load, SeededRandom random)
    {
        Grams = load.Grams;
        motion = load.Temperament is null ? null : new(load.Temperament, random.Fork());
        hand = new(random.Fork(), 1, HandMemorySeconds);
    }

    public double Grams { get; set; }

    /// <summary>Whether no hand touches it and it lies on the pan with all its weight.</summary>
    public bool IsFree(double seconds) => supportTo == 0 && unsteadyTo == 0 && seconds >= rampStart + rampSeconds;

    public bool IsCarried(double seconds) => supportTo >= 1 && seconds >= rampStart + rampSeconds;

    public void Take(Grip grip)
    {
        var progress = Progress(grip.At);
        (supportFrom, freedomFrom, unsteadyFrom) = (Blend(supportFrom, supportTo, progress), Blend(freedomFrom, freedomTo, progress), Blend(unsteadyFrom, unsteadyTo, progress));
        rampStart = grip.At;
        rampSeconds = Math.Max(SimulatedTime.StepSeconds, grip.Seconds);
        supportTo = grip.Support;
        var touches = grip.Support != 0 || grip.Unsteadiness > 0;
        freedomTo = grip.Support >= 1 ? 0 : touches ? 1 - grip.Calming : 1;
        unsteadyTo = grip.Support >= 1 ? 0 : grip.Unsteadiness;
        overshoot = grip.Overshoot;
    }

    /// <summary>Force on the pan in the step that begins now, in grams.</summary>
    public double Force(double seconds)
    {
        var acceleration = motion?.Advance() ?? 0;
        if (IsCarried(seconds))
            return 0;

        var progress = Progress(seconds);
        var unsteadiness = Blend(unsteadyFrom, unsteadyTo, progress);
        var wander = unsteadiness == 0 ? 0 : unsteadiness * hand.Step();
        var carried = Blend(supportFrom, supportTo, progress) - Landing(seconds) + wander;
        return Grams * (1 - carried + (Blend(freedomFrom, freedomTo, progress) * acceleration));
    }

    // The swing begins late in the ramp and is gone half a second after it.
    private double Landing(double seconds)
    {
        var since = seconds - rampStart - (0.7 * rampSeconds);
        return overshoot == 0 || since <= 0 || since > 1 ? 0 : overshoot * Math.Exp(-since / 0.12) * Math.Sin(2 * Math.PI * 3 * since);
    }

    // The path of a hand: minimum jerk (Flash and Hogan, 1985).
    private double Progress(double seconds)
    {
        var p = Math.Clamp((seconds - rampStart) / rampSeconds, 0, 1);
        return p * p * p * (10 + (p * ((6 * p) - 15)));
    }

    private static double Blend(double from, double to, double progress) => from + ((to - from) * progress);
}
