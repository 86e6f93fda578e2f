namespace CaptureAgent.Agent.Growth.References;

/// <summary>The distribution of a measurement at one age by its skewness, median and coefficient of variation.</summary>
/// <remarks>Cole and Green 1992, Statistics in Medicine 11: 1305.</remarks>
/// <param name="L">Box-Cox power that makes the distribution normal; 0 where the logarithm does.</param>
/// <param name="M">Median, in the unit of the measurement.</param>
/// <param name="S">Generalised coefficient of variation.</param>
internal readonly record struct Lms(double L, double M, double S)
{
    // Below this the power is no longer told from the logarithm in double precision.
    private const double Logarithm = 1e-9;

    /// <summary>How many standard deviations a value lies from the median.</summary>
    public double Z(double value) =>
        Math.Abs(L) < Logarithm ? Math.Log(value / M) / S : (Math.Pow(value / M, L) - 1) / (L * S);

    /// <summary>The value that lies so many standard deviations from the median; not a number where the distribution ends before.</summary>
    public double Value(double z) =>
        Math.Abs(L) < Logarithm ? M * Math.Exp(S * z) : M * Math.Pow(1 + L * S * z, 1 / L);

    /// <summary>The part of the population below a value, 0 to 1.</summary>
    public double Centile(double value) => MathNet.Numerics.Distributions.Normal.CDF(0, 1, Z(value));

    /// <summary>The score as the World Health Organization restricts it for weight: beyond three standard deviations it goes on by the distance from the second to the third.</summary>
    /// <remarks>WHO Child Growth Standards: Methods and development (2006), chapter 7.</remarks>
    public double RestrictedZ(double value)
    {
        var z = Z(value);
        return z switch
        {
            > 3 => 3 + (value - Value(3)) / (Value(3) - Value(2)),
            < -3 => -3 + (value - Value(-3)) / (Value(-2) - Value(-3)),
            _ => z,
        };
    }
}
