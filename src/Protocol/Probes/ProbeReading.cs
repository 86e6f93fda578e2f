namespace CaptureAgent.Protocol.Probes;

/// <summary>One temperature exactly as the probe sent it, in degrees Celsius, with the step of its last digit.</summary>
/// <param name="IsIntermediate">The probe itself says that it has not come to rest.</param>
public readonly record struct ProbeReading(decimal Celsius, decimal ResolutionCelsius, bool IsIntermediate = false)
{
    /// <summary>Below it there is no temperature.</summary>
    public const decimal AbsoluteZero = -273.15m;

    /// <summary>A shown value in Celsius; degrees Fahrenheit convert by (F - 32) * 5 / 9 (NIST SP 811, B.8), to the 28 digits of a decimal.</summary>
    /// <param name="step">Step of the last digit, in the unit of the value.</param>
    /// <param name="isFahrenheit">Else the value is in Celsius.</param>
    /// <returns>False for what is no temperature.</returns>
    public static bool TryMake(decimal value, decimal step, bool isFahrenheit, out ProbeReading reading)
    {
        reading = default;
        // Far outside of any range the arithmetic of a decimal ends too.
        if (Math.Abs(value) > 1_000_000m || step is <= 0 or > 1_000_000m)
            return false;
        var celsius = isFahrenheit ? (value - 32) * 5 / 9 : value;
        if (celsius < AbsoluteZero)
            return false;
        reading = new(celsius, isFahrenheit ? step * 5 / 9 : step);
        return true;
    }
}
