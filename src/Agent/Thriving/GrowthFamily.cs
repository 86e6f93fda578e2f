namespace CaptureAgent.Agent.Thriving;

/// <summary>The curves that any parrot chick may grow by: logistic, Gompertz and what lies between, of every pace and time of inflection, in steps finer than a chick is steady.</summary>
/// <remarks>
/// Ricklefs' forms (Ecology 48:978, 1967; from memory): W = A / (1 + exp(p - K t)) and W = A exp(-exp(p - K t)), p being K times the age of the inflection.
/// Both are cases of Richards' curve (J. Exp. Bot. 10:290, 1959; from memory), W = A / (1 + s exp(p - K t))^(1/s): s is 1 for the logistic, and towards 0
/// Gompertz. Most chicks grow by neither; without one in the middle those would seem to fall short where growth slows down.
/// Allometry, fitted to the 48 published series behind reference-curves.tsv: K = 0.489 A^-0.231 per day (A in grams; scatter a factor of 1.29) and
/// p = 2.84 (quartiles 2.5 to 3.1); the Gompertz curve of the same series has K 0.57 times that and p = 1.25. What is said of the form between is their middle.
/// </remarks>
internal static class GrowthFamily
{
    /// <summary>Of ln K.</summary>
    public const double PaceStep = 0.07;

    /// <summary>Scatter of ln K about the allometry.</summary>
    public const double PaceScatter = 0.25;

    private const double SlowestPace = 0.05, FastestPace = 0.55;

    /// <summary>By form: s; K beside that of the logistic; of p the middle, the scatter and the step.</summary>
    private static readonly (double Shape, double Pace, double Middle, double Scatter, double Step)[] Forms =
        [(1, 1, 2.84, 0.45, 0.25), (0, 0.57, 1.25, 0.2, 0.1), (0.5, 0.77, 1.95, 0.3, 0.16)];

    /// <summary>To either side of the middle.</summary>
    private const int Steps = 5;

    /// <summary>K of a final weight of one gram, per day; ln K by ln of the final weight.</summary>
    private const double PaceOfOneGram = 0.489, Slope = -0.231;

    private static readonly Lazy<IReadOnlyList<GrowthRow>> Rows = new(Make);

    /// <summary>How many forms there are; a reference as it is counts as one more.</summary>
    public static int Count => Forms.Length;

    /// <summary>The middle inflection, by form.</summary>
    public static double[] Middles { get; } = [.. Forms.Select(each => each.Middle)];

    public static IReadOnlyList<GrowthRow> All => Rows.Value;

    /// <summary>ln of the prior density of a row for a chick of which only its final weight is known.</summary>
    public static double LogPrior(GrowthRow row, double logFinal) => LogPrior(row, logFinal, PaceScatter);

    /// <summary>The same where the size is not known either.</summary>
    public static double LogPrior(GrowthRow row)
    {
        // ln of a final weight of 200 g, give or take a factor of e.
        const double Middle = 5.3, Scatter = 1;
        return LogPrior(row, Middle, Math.Sqrt(PaceScatter * PaceScatter + Slope * Slope * Scatter * Scatter));
    }

    private static double LogPrior(GrowthRow row, double logFinal, double scatter)
    {
        var form = Forms[row.Form];
        var pace = (row.LogPace - Math.Log(PaceOfOneGram) - Slope * logFinal) / scatter;
        var inflection = (row.Inflection - form.Middle) / form.Scatter;
        return HeavyTailed.Log(pace) - inflection * inflection / 2;
    }

    private static List<GrowthRow> Make()
    {
        List<GrowthRow> rows = [];
        for (var form = 0; form < Count; form++)
        {
            var (shape, factor, middle, _, step) = Forms[form];
            for (var pace = Math.Log(SlowestPace); pace < Math.Log(FastestPace); pace += PaceStep)
            {
                for (var i = -Steps; i <= Steps; i++)
                {
                    var (k, p) = (Math.Exp(pace) * factor, middle + i * step);
                    rows.Add(new GrowthRow(form, pace, p, t => shape == 0 ? -Math.Exp(p - k * t) : -Math.Log(1 + shape * Math.Exp(p - k * t)) / shape));
                }
            }
        }

        return rows;
    }
}
