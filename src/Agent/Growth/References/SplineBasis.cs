namespace CaptureAgent.Agent.Growth.References;

/// <summary>Cubic B-splines on even knots: at any age four of them are not zero, and their sum is one.</summary>
/// <remarks>Eilers and Marx 1996, Statistical Science 11: 89.</remarks>
internal sealed class SplineBasis(double lastAge, double knotDays)
{
    /// <summary>Splines that are not zero at one age.</summary>
    public const int Wide = 4;

    private readonly int spans = Math.Max(1, (int)Math.Ceiling(lastAge / knotDays));

    public int Count => spans + Wide - 1;

    public double KnotDays => knotDays;

    /// <summary>The four splines at an age.</summary>
    /// <returns>The number of the first.</returns>
    public int At(double age, Span<double> values)
    {
        var place = Math.Clamp(age / knotDays, 0, spans);
        var span = Math.Min((int)place, spans - 1);
        var u = place - span;
        var v = 1 - u;
        values[0] = v * v * v / 6;
        values[1] = (3 * u * u * u - 6 * u * u + 4) / 6;
        values[2] = (3 * v * v * v - 6 * v * v + 4) / 6;
        values[3] = u * u * u / 6;
        return span;
    }

    public double Sum(double age, ReadOnlySpan<double> coefficients)
    {
        Span<double> values = stackalloc double[Wide];
        var first = At(age, values);
        var sum = 0.0;
        for (var i = 0; i < Wide; i++)
            sum += values[i] * coefficients[first + i];
        return sum;
    }
}
