namespace CaptureAgent.Agent.Growth.Models;

/// <summary>W = A exp(-exp(-K (t - ti))); the inflection lies at A/e.</summary>
internal sealed class GompertzModel : GrowthModel
{
    // ln(ln 0.1 / ln 0.9).
    private const double Span10To90 = 3.0843997725604013;

    public override string Name => "Gompertz";

    public override string Source => "W = A exp(-exp(-K (t - ti))), Ricklefs 1967, Ecology 48: 978";

    public override double Days10To90(ReadOnlySpan<double> parameters) => Span10To90 / parameters[1];

    public override double Value(double x, ReadOnlySpan<double> parameters, Span<double> gradient)
    {
        var (a, k, ti) = (parameters[0], parameters[1], parameters[2]);
        var power = Math.Exp(-k * (x - ti));
        var part = Math.Exp(-power);
        gradient[0] = part;
        // Far before the inflection the part vanishes faster than the power rises.
        var slope = part == 0 ? 0 : a * part * power;
        gradient[1] = slope * (x - ti);
        gradient[2] = -slope * k;
        return a * part;
    }
}
