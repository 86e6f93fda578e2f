using CaptureAgent.Agent.Growth;

namespace CaptureAgent.Agent.Thriving;

/// <summary>Healthy growth as a function of age, in days: ln(grams) and its rate per day.</summary>
internal interface IGrowthCurve
{
    double Log(double age);

    double Rate(double age);
}

/// <summary>W = A / (1 + exp(-K (t - ti))), the logistic in Ricklefs' form (Ecology 48:978, 1967; from memory).</summary>
internal sealed class LogisticCurve(double finalGrams, double k, double inflection) : IGrowthCurve
{
    public double Log(double age) => Math.Log(finalGrams) - Math.Log(1 + Math.Exp(-k * (age - inflection)));

    public double Rate(double age) => k / (1 + Math.Exp(k * (age - inflection)));
}

/// <summary>W = A exp(-exp(-K (t - ti))), the Gompertz curve in Ricklefs' form.</summary>
internal sealed class GompertzCurve(double finalGrams, double k, double inflection) : IGrowthCurve
{
    public double Log(double age) => Math.Log(finalGrams) - Math.Exp(-k * (age - inflection));

    public double Rate(double age) => k * Math.Exp(-k * (age - inflection));
}

/// <summary>A species' reference, read once by half days: a forecast asks for it thousands of times.</summary>
internal sealed class TabledCurve : IGrowthCurve
{
    private const double Step = 0.5;

    private const int Steps = 320;

    private readonly double[] log = new double[Steps + 1], rate = new double[Steps + 1];

    private TabledCurve()
    {
    }

    /// <summary>Null where the reference does not know the species.</summary>
    public static TabledCurve? Of(IReferenceGrowth reference, string? species)
    {
        var curve = new TabledCurve();
        for (var i = 0; i <= Steps; i++)
        {
            if (reference.At(species, i * Step) is not { } at)
                return null;
            (curve.log[i], curve.rate[i]) = (Math.Log(at.Grams), at.Rate);
        }

        return curve;
    }

    public double Log(double age)
    {
        var (i, part) = Place(age);
        return age < 0 ? log[0] + age * rate[0] : log[i] + part * (log[Math.Min(i + 1, Steps)] - log[i]);
    }

    public double Rate(double age)
    {
        var (i, part) = Place(age);
        return rate[i] + part * (rate[Math.Min(i + 1, Steps)] - rate[i]);
    }

    private static (int Index, double Part) Place(double age)
    {
        var place = Math.Clamp(age / Step, 0, Steps);
        var i = (int)place;
        return (i, place - i);
    }
}
