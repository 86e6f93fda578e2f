namespace CaptureAgent.Agent.Thriving;

/// <summary>The curves that any parrot chick may grow by: logistic and Gompertz of every pace and time of inflection, in steps finer than a chick is steady.</summary>
/// <remarks>
/// Ricklefs' forms (Ecology 48:978, 1967; from memory): W = A / (1 + exp(p - K t)) and W = A exp(-exp(p - K t)), p being K times the age of the inflection.
/// Allometry, fitted to the 48 published series behind reference-curves.tsv: K = 0.489 A^-0.231 per day (A in grams; scatter a factor of 1.29) and
/// p = 2.84 (quartiles 2.5 to 3.1); the Gompertz curve of the same series has K 0.57 times that and p = 1.25.
/// </remarks>
internal static class GrowthFamily
{
    /// <summary>Of ln K.</summary>
    public const double PaceStep = 0.055;

    /// <summary>Scatter of ln K about the allometry.</summary>
    public const double PaceScatter = 0.25;

    private const double SlowestPace = 0.05, FastestPace = 0.34;

    private const double GompertzPace = 0.57;

    /// <summary>Of p, by form: middle, scatter, steps.</summary>
    private static readonly (double Middle, double Scatter, double Step, int Steps)[] Inflections = [(2.84, 0.45, 0.25, 5), (1.25, 0.2, 0.1, 5)];

    private static readonly Lazy<IReadOnlyList<GrowthRow>> Rows = new(Make);

    /// <summary>The middle inflection, by form.</summary>
    public static double[] Middles { get; } = [.. Inflections.Select(each => each.Middle)];

    public static IReadOnlyList<GrowthRow> All => Rows.Value;

    /// <summary>ln of the prior density of a row for a chick of which only its final weight is known.</summary>
    public static double LogPrior(GrowthRow row, double logFinal)
    {
        var (middle, scatter, _, _) = Inflections[row.Form];
        var pace = (row.LogPace - Math.Log(0.489) + 0.231 * logFinal) / PaceScatter;
        var inflection = (row.Inflection - middle) / scatter;
        return -(pace * pace + inflection * inflection) / 2;
    }

    /// <summary>The same where the size is not known either.</summary>
    public static double LogPrior(GrowthRow row)
    {
        // ln of a final weight of 200 g, give or take a factor of e.
        const double Middle = 5.3, Scatter = 1;
        var (middle, scatter, _, _) = Inflections[row.Form];
        var pace = (row.LogPace - Math.Log(0.489) + 0.231 * Middle) / Math.Sqrt(PaceScatter * PaceScatter + 0.231 * 0.231 * Scatter * Scatter);
        var inflection = (row.Inflection - middle) / scatter;
        return -(pace * pace + inflection * inflection) / 2;
    }

    private static List<GrowthRow> Make()
    {
        List<GrowthRow> rows = [];
        for (var form = 0; form < Inflections.Length; form++)
        {
            var (middle, _, step, steps) = Inflections[form];
            for (var pace = Math.Log(SlowestPace); pace < Math.Log(FastestPace); pace += PaceStep)
            {
                for (var i = -steps; i <= steps; i++)
                {
                    var (k, p, gompertz) = (Math.Exp(pace) * (form == 1 ? GompertzPace : 1), middle + i * step, form == 1);
                    rows.Add(new GrowthRow(form, pace, p, t => gompertz ? -Math.Exp(p - k * t) : -Math.Log(1 + Math.Exp(p - k * t))));
                }
            }
        }

        return rows;
    }
}
