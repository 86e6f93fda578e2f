namespace CaptureAgent.Agent.Growth.Models;

/// <summary>W = A / (1 + exp(-K (t - ti))); the inflection lies at A/2.</summary>
internal sealed class LogisticModel : GrowthModel
{
    // ln 81: from 1/10 to 9/10 of the asymptote.
    private const double Span10To90 = 4.394449154672439;

    public override string Name => "logistic";

    public override string Source => "W = A / (1 + exp(-K (t - ti))), Ricklefs 1967, Ecology 48: 978";

    public override double Days10To90(ReadOnlySpan<double> parameters) => Span10To90 / parameters[1];

    public override double Value(double x, ReadOnlySpan<double> parameters, Span<double> gradient)
    {
        var (a, k, ti) = (parameters[0], parameters[1], parameters[2]);
        var part = 1 / (1 + Math.Exp(-k * (x - ti)));
        var slope = a * part * (1 - part);
        gradient[0] = part;
        gradient[1] = slope * (x - ti);
        gradient[2] = -slope * k;
        return a * part;
    }
}
