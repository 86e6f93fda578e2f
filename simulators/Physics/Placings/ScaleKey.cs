using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Simulators.Physics.Placings;

/// <summary>Something done to the scale itself, at a moment of simulated time.</summary>
/// <param name="At">Seconds.</param>
/// <param name="Press">What is done; given the scale and the present moment.</param>
public sealed record ScaleKey(double At, Action<GramScale, double> Press)
{
    public static ScaleKey Tare(double at) => new(at, (scale, _) => scale.PressTare());

    public static ScaleKey SwitchUnit(double at, DisplayUnit unit) => new(at, (scale, _) => scale.SwitchUnit(unit));

    public static ScaleKey CutPower(double at, double seconds) => new(at, (scale, now) => scale.CutPower(now, seconds));
}
