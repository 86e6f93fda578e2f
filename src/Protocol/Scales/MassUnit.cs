namespace CaptureAgent.Protocol.Scales;

/// <summary>The units of mass that are taken, each with an exact definition.</summary>
public enum MassUnit
{
    /// <summary>The line carried no unit.</summary>
    None,
    Gram,
    Kilogram,
    Milligram,
    Ounce,
    Pound,
}
