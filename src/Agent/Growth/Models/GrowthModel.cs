using CaptureAgent.Agent.Growth.Fitting;

namespace CaptureAgent.Agent.Growth.Models;

/// <summary>A growth curve of a published form: grams by days of age.</summary>
/// <remarks>
/// The first parameter is the asymptote A in grams, the second the rate constant K a day, the third the age of inflection ti in days;
/// only Richards has a fourth, the shape d. K of one model is no K of another: times from 10 % to 90 % of A compare.
/// </remarks>
internal abstract class GrowthModel : ICurve
{
    public static GrowthModel Logistic { get; } = new LogisticModel();

    public static GrowthModel Gompertz { get; } = new GompertzModel();

    public static GrowthModel VonBertalanffy { get; } = new VonBertalanffyModel();

    public static GrowthModel Richards { get; } = new RichardsModel();

    /// <summary>Those with three parameters first.</summary>
    public static IReadOnlyList<GrowthModel> All { get; } = [Logistic, Gompertz, VonBertalanffy, Richards];

    public abstract string Name { get; }

    /// <summary>The formula and where it was published.</summary>
    public abstract string Source { get; }

    public virtual int Parameters => 3;

    /// <summary>The time from 10 % to 90 % of the asymptote, days.</summary>
    public abstract double Days10To90(ReadOnlySpan<double> parameters);

    public abstract double Value(double x, ReadOnlySpan<double> parameters, Span<double> gradient);

    /// <summary>Grams at an age; not a number where the form is not defined.</summary>
    public double Grams(double ageDays, ReadOnlySpan<double> parameters)
    {
        Span<double> gradient = stackalloc double[LeastSquares.MostParameters];
        return Value(ageDays, parameters, gradient);
    }

    /// <summary>d ln(W) / dt at an age, a day.</summary>
    public double RelativeRate(double ageDays, ReadOnlySpan<double> parameters)
    {
        Span<double> gradient = stackalloc double[LeastSquares.MostParameters];
        var grams = Value(ageDays, parameters, gradient);
        // Age stands in every form as t - ti: what one does, the other undoes.
        return -gradient[2] / grams;
    }
}
