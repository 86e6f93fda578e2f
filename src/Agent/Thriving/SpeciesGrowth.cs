using CaptureAgent.Agent.Growth;

namespace CaptureAgent.Agent.Thriving;

/// <summary>The courses of growth that a chick of one species may take, and how likely each is before its first weight.</summary>
internal sealed class SpeciesGrowth
{
    /// <summary>A start this much less likely than the best, in logarithms, is left out.</summary>
    private const double Hopeless = 8;

    /// <summary>Oldest first weight tried where no date of hatching is known.</summary>
    private const int OldestStart = 70;

    /// <summary>Final weights of parrots: ln(grams), the middle and how far they go.</summary>
    private const double MiddleSize = 5.3, SizeReach = 2.1;

    private readonly double logFinal;
    private readonly Tuning tuning;

    // One a row; for a species that no reference knows, without what its size says.
    private readonly double[]? logPrior;

    // The likeliest inflection, by form.
    private readonly double[] middle = GrowthFamily.Middles;

    public SpeciesGrowth(IReferenceGrowth reference, string? species, Tuning tuning)
    {
        this.tuning = tuning;
        if (ReferenceShape.Of(reference, species) is not { } shape)
        {
            Rows = GrowthFamily.All;
            Prior = Normalised([.. Rows.Select(row => GrowthFamily.LogPrior(row))]);
            return;
        }

        logFinal = shape.LogFinal;
        Rows = [.. GrowthFamily.All, .. shape.Rows(tuning)];
        (logPrior, middle) = shape.Priors(Rows, tuning);
        Prior = Normalised(logPrior);
    }

    public IReadOnlyList<GrowthRow> Rows { get; }

    /// <summary>Probability of each row before any weight.</summary>
    public double[] Prior { get; }

    /// <summary>Whether a reference knows the species.</summary>
    public bool IsKnown => logPrior is not null;

    /// <param name="ageDays">Null where no date of hatching is known.</param>
    public IReadOnlyList<GrowthStart> Starts(int? ageDays, double grams)
    {
        List<GrowthStart> starts = [];
        var log = Math.Log(grams);
        var best = double.NegativeInfinity;
        for (var row = 0; row < Rows.Count; row++)
        {
            if (ageDays is { } age)
            {
                Add(row, age);
                continue;
            }

            // The inflection and the age at the first weight say the same then: one of them is enough.
            if (!IsMiddle(row))
                continue;
            for (var day = 0; day <= OldestStart; day += IsKnown ? 1 : 2)
                Add(row, day);
        }

        starts.RemoveAll(start => start.LogPrior < best - Hopeless);
        return starts;

        void Add(int row, int age)
        {
            var prior = LogPrior(row, age, log);
            best = Math.Max(best, prior);
            if (prior >= best - Hopeless)
                starts.Add(new GrowthStart(row, age, prior));
        }
    }

    private double LogPrior(int row, int age, double log)
    {
        var final = log - Rows[row].LogPart(age);
        if (logPrior is { } known)
        {
            var size = (final - logFinal) / tuning.SizeSpread;
            return known[row] - size * size / 2;
        }

        var beyond = Math.Max(Math.Abs(final - MiddleSize) - SizeReach, 0) / 0.3;
        return GrowthFamily.LogPrior(Rows[row], final) - beyond * beyond / 2;
    }

    private static double[] Normalised(double[] logs)
    {
        var best = logs.Max();
        var sum = logs.Sum(log => Math.Exp(log - best));
        return [.. logs.Select(log => Math.Exp(log - best) / sum)];
    }

    private bool IsMiddle(int row) => Math.Abs(Rows[row].Inflection - middle[Rows[row].Form]) < 1e-9;
}

/// <summary>One course that a chick may be on.</summary>
/// <param name="Row">Of its species' courses.</param>
/// <param name="Age">On the day of the first weight.</param>
/// <param name="LogPrior">ln of its probability, less a constant.</param>
internal readonly record struct GrowthStart(int Row, int Age, double LogPrior);
