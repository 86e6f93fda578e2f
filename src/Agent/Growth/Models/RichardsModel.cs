namespace CaptureAgent.Agent.Growth.Models;

/// <summary>W = A (1 + (d - 1) exp(-K (t - ti)))^(1 / (1 - d)): d = 2 is the logistic curve, d -> 1 Gompertz's, d = 2/3 von Bertalanffy's.</summary>
internal sealed class RichardsModel : GrowthModel
{
    public override string Name => "Richards";

    public override string Source =>
        "W = A (1 + (d - 1) exp(-K (t - ti)))^(1 / (1 - d)), Richards 1959, J. Exp. Bot. 10: 290, with the age of inflection as in Tjørve and Tjørve 2010, J. Theor. Biol. 267: 417";

    public override int Parameters => 4;

    public override double Days10To90(ReadOnlySpan<double> parameters)
    {
        var m = parameters[3] - 1;
        return (Math.Log(Exponent(0.1, m)) - Math.Log(Exponent(0.9, m))) / parameters[1];
    }

    public override double Value(double x, ReadOnlySpan<double> parameters, Span<double> gradient)
    {
        var (a, k, ti, m) = (parameters[0], parameters[1], parameters[2], parameters[3] - 1);
        var power = Math.Exp(-k * (x - ti));
        var u = m * power;
        if (!(u > -1) || double.IsInfinity(u))
            return Undefined(gradient);
        // With m -> 0 both have Gompertz's limits: by their series, for the quotients lose all digits there.
        var isNearGompertz = Math.Abs(u) < 1e-4;
        var exponent = isNearGompertz ? -power * (1 - u / 2 + u * u / 3) : -Log1P(u) / m;
        var bend = isNearGompertz ? 0.5 - 2 * u / 3 + 0.75 * u * u : (Log1P(u) - u / (1 + u)) / (u * u);
        var part = Math.Exp(exponent);
        if (part == 0)
        {
            gradient[..4].Clear();
            return 0;
        }

        var slope = a * part * power / (1 + u);
        gradient[0] = part;
        gradient[1] = slope * (x - ti);
        gradient[2] = -slope * k;
        gradient[3] = a * part * power * power * bend;
        return a * part;
    }

    // The value of exp(-K (t - ti)) where W is this part of A.
    private static double Exponent(double part, double m) => Math.Abs(m) < 1e-9 ? -Math.Log(part) : (Math.Pow(part, -m) - 1) / m;

    private static double Undefined(Span<double> gradient)
    {
        gradient[..4].Clear();
        return double.NaN;
    }

    // ln(1 + u) without the loss of digits near 0 (Kahan's way).
    private static double Log1P(double u)
    {
        var sum = 1 + u;
        return sum == 1 ? u : Math.Log(sum) * u / (sum - 1);
    }
}
