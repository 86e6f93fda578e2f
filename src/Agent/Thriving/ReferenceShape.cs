using CaptureAgent.Agent.Growth;

namespace CaptureAgent.Agent.Thriving;

/// <summary>A reference curve as a source of courses: itself at other paces, and the logistic and Gompertz curves near it.</summary>
internal sealed class ReferenceShape
{
    private const int LastAge = 150;

    /// <summary>How far a form may miss the reference, root mean square of ln(weight).</summary>
    private const double Miss = 0.05;

    /// <summary>Of K times the age of inflection, by form: what is not known beside the pace.</summary>
    private static readonly double[] InflectionSpread = [0.25, 0.12, 0.18];

    private readonly double[] log;

    private ReferenceShape(double[] log, double logFinal) => (this.log, LogFinal) = (log, logFinal);

    /// <summary>ln(grams) at which growth ends.</summary>
    public double LogFinal { get; }

    /// <summary>Null where the reference does not know the species.</summary>
    public static ReferenceShape? Of(IReferenceGrowth reference, string? species)
    {
        if (species is null || reference.At(species, 0) is not { } hatched)
            return null;
        List<double> log = [];
        for (var age = 0; age <= LastAge && reference.At(species, age) is { } at; age++)
            log.Add(Math.Log(at.Grams));
        return new ReferenceShape([.. log], Math.Log(hatched.PeakGrams));
    }

    /// <summary>The reference itself, faster and slower, earlier and later.</summary>
    public IEnumerable<GrowthRow> Rows(Tuning tuning)
    {
        const double Step = 0.06;
        for (var pace = -7; pace <= 7; pace++)
        {
            for (var ahead = -1; ahead <= 1; ahead++)
            {
                var (factor, days) = (Math.Exp(pace * Step), ahead * tuning.AheadSpread);
                yield return new GrowthRow(GrowthFamily.Count, pace * Step, days, t => Math.Min(At(factor * t + days) - LogFinal, 0));
            }
        }
    }

    /// <summary>ln of the probability of each course, less a constant: an equal share for each form, less for one that misses the reference.</summary>
    /// <returns>And, by form, the inflection of the nearest course.</returns>
    public (double[] LogPriors, double[] Inflections) Priors(IReadOnlyList<GrowthRow> rows, Tuning tuning)
    {
        var inflections = new double[GrowthFamily.Count + 1];
        var priors = new double[rows.Count];
        for (var form = 0; form <= GrowthFamily.Count; form++)
        {
            GrowthRow? nearest = null;
            var least = double.MaxValue;
            foreach (var row in form == GrowthFamily.Count ? [] : rows.Where(row => row.Form == form))
            {
                var miss = MissOf(row);
                if (miss < least)
                    (nearest, least) = (row, miss);
            }

            inflections[form] = nearest?.Inflection ?? 0;
            var worse = nearest is null ? 0 : Square(least / Miss) / 2;
            var sum = 0.0;
            for (var i = 0; i < rows.Count; i++)
            {
                if (rows[i].Form != form)
                    continue;
                var pace = (rows[i].LogPace - (nearest?.LogPace ?? 0)) / tuning.PaceSpread;
                var inflection = nearest is null ? rows[i].Inflection / Math.Max(tuning.AheadSpread, 0.1) : (rows[i].Inflection - nearest.Inflection) / InflectionSpread[form];
                priors[i] = HeavyTailed.Log(pace) - Square(inflection) / 2;
                sum += Math.Exp(priors[i]);
            }

            for (var i = 0; i < rows.Count; i++)
            {
                if (rows[i].Form == form)
                    priors[i] -= Math.Log(sum) + worse;
            }
        }

        return (priors, inflections);
    }

    private double At(double age)
    {
        if (age <= 0)
            return log[0] + age * (log[1] - log[0]);
        var i = Math.Min((int)age, log.Length - 2);
        return log[i] + Math.Min(age - i, 1) * (log[i + 1] - log[i]);
    }

    // Over the ages of growth, whatever the size.
    private double MissOf(GrowthRow row)
    {
        double sum = 0, squares = 0;
        var n = 0;
        for (var age = 0; age < log.Length && log[age] < LogFinal + Math.Log(GrowthRow.Over); age++)
        {
            var off = log[age] - row.LogPart(age);
            (sum, squares, n) = (sum + off, squares + off * off, n + 1);
        }

        return n == 0 ? 0 : Math.Sqrt(Math.Max(squares / n - Square(sum / n), 0));
    }

    private static double Square(double value) => value * value;
}
