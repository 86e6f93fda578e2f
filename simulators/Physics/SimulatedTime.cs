namespace CaptureAgent.Simulators.Physics;

/// <summary>The one step of simulated time: forces are constant within it.</summary>
public static class SimulatedTime
{
    /// <summary>200 steps a second: a wing beats at up to 10 Hz, a fan hums at up to 60 Hz.</summary>
    public const double StepSeconds = 0.005;

    /// <summary>Standard gravity in m/s² (CGPM 1901).</summary>
    public const double Gravity = 9.80665;
}
