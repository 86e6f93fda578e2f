namespace CaptureAgent.Agent.Growth.Models;

/// <summary>W = A (1 - exp(-K (t - ti)) / 3)^3; the inflection lies at 8A/27.</summary>
/// <remarks>Von Bertalanffy's curve of mass, with b = exp(K ti) / 3 written by the age of inflection. It has no weight before ti - ln(3)/K.</remarks>
internal sealed class VonBertalanffyModel : GrowthModel
{
    // ln((1 - 0.1^(1/3)) / (1 - 0.9^(1/3))).
    private const double Span10To90 = 2.7425707236468817;

    public override string Name => "von Bertalanffy";

    public override string Source => "W = A (1 - exp(-K (t - ti)) / 3)^3, von Bertalanffy 1957, Q. Rev. Biol. 32: 217, with the age of inflection as in Ricklefs 1968, Ibis 110: 419";

    public override double Days10To90(ReadOnlySpan<double> parameters) => Span10To90 / parameters[1];

    public override double Value(double x, ReadOnlySpan<double> parameters, Span<double> gradient)
    {
        var (a, k, ti) = (parameters[0], parameters[1], parameters[2]);
        var power = Math.Exp(-k * (x - ti));
        // Before its zero the cube would be a negative weight.
        var root = Math.Max(0, 1 - power / 3);
        var square = root * root;
        var slope = root == 0 ? 0 : a * square * power;
        gradient[0] = square * root;
        gradient[1] = slope * (x - ti);
        gradient[2] = -slope * k;
        return a * square * root;
    }
}
