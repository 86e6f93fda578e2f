namespace CaptureAgent.Simulators.Physics.Scales;

/// <summary>The unit on a scale's display.</summary>
public enum DisplayUnit
{
    Gram,
    Kilogram,
    Ounce,
    Pound,
}

/// <summary>Whether a scale can show what lies on it.</summary>
public enum ShownRange
{
    Within,
    Over,
    Under,
}

/// <summary>One reading as the scale shows it.</summary>
/// <param name="Seconds">When it was taken, in simulated time.</param>
/// <param name="Range">Where not within, the value means nothing.</param>
/// <param name="Value">With the digits of the display, in <paramref name="Unit"/>.</param>
/// <param name="Unit">On the display.</param>
/// <param name="Stable">The scale's own mark; null where it has none.</param>
/// <param name="IsNet">Whether its own tare is taken off.</param>
public readonly record struct ScaleSample(double Seconds, ShownRange Range, decimal Value, DisplayUnit Unit, bool? Stable, bool IsNet);
