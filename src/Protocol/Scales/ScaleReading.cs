namespace CaptureAgent.Protocol.Scales;

/// <summary>What the scale itself says about motion; evidence, never proof.</summary>
public enum Stability
{
    /// <summary>The dialect has no mark, or the mark proves nothing.</summary>
    Unknown,
    Stable,
    Unstable,
}

/// <summary>Whether the load is within what the scale can show.</summary>
public enum LoadRange
{
    Within,
    Overload,
    Underload,
}

/// <summary>Whether the scale says that its own tare has been taken off.</summary>
public enum WeightMark
{
    Unknown,
    Gross,
    Net,
}

/// <summary>One weight exactly as the scale sent it: the decimal keeps the digits shown, so 1.20 stays 1.20.</summary>
/// <remarks><see cref="Value"/> is 0 and means nothing unless <see cref="Range"/> is <see cref="LoadRange.Within"/>.</remarks>
/// <param name="Step">Smallest step of the value, in its unit, where the format tells it; null: one of the last digit.</param>
public readonly record struct ScaleReading(
    LoadRange Range, decimal Value, MassUnit Unit, Stability Stability, WeightMark Mark, decimal? Step = null)
{
    /// <summary>The step in grams; the reading must have a unit.</summary>
    public decimal StepGrams(MassUnit unit) => Step is { } step ? step * MassUnits.GramsPer(unit) : MassUnits.StepGrams(Value, unit);
}
