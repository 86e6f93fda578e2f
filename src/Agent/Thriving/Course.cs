namespace CaptureAgent.Agent.Thriving;

/// <summary>The curves that one chick may be on, each with its filter, its test and its probability.</summary>
internal sealed class Course
{
    /// <summary>A curve this much less likely than the best is dropped.</summary>
    private const double Hopeless = 1e-3;

    private readonly List<Candidate> candidates = [];

    public Course(IReadOnlyList<GrowthStart> starts, double logGrams, double variance, NoiseLevel noise, in Tuning tuning)
    {
        foreach (var start in starts)
            candidates.Add(new Candidate(new ChickFilter(logGrams, variance, start, noise, tuning), new Shortfall(), start.Weight / starts.Count));
    }

    private Course(Course other) => candidates.AddRange(other.candidates.Select(each => new Candidate(each.Filter.Copy(), each.Shortfall.Copy(), each.Weight)));

    /// <summary>The likeliest curve's.</summary>
    public ChickFilter Filter => candidates[0].Filter;

    /// <summary>What speaks for a shortfall, on the likeliest curve.</summary>
    public ShortfallEvidence Strongest(double? allowed) => candidates[0].Shortfall.Strongest(allowed);

    public Course Copy() => new(this);

    public void Pass(in Tuning tuning, NoiseLevel noise)
    {
        foreach (var each in candidates)
        {
            var gain = each.Filter.Pass(tuning, noise);
            each.Shortfall.Pass(each.Filter.Transition, gain);
        }
    }

    /// <summary>Mean and variance of ln(weight) over the curves, without the weighing's own error.</summary>
    public (double Mean, double Variance) Predict()
    {
        if (candidates.Count == 1)
            return (Filter.Predicted, Filter.PredictedVariance);
        double mean = 0, square = 0;
        foreach (var each in candidates)
        {
            mean += each.Weight * each.Filter.Predicted;
            square += each.Weight * (each.Filter.PredictedVariance + each.Filter.Predicted * each.Filter.Predicted);
        }

        return (mean, Math.Max(square - mean * mean, 1e-8));
    }

    /// <param name="observed">ln(grams), the room's common shift taken off.</param>
    /// <param name="variance">Of the weighing and of what makes it doubtful.</param>
    public void Take(double observed, double variance)
    {
        double sum = 0;
        foreach (var each in candidates)
        {
            var innovation = observed - each.Filter.Predicted;
            var total = each.Filter.PredictedVariance + variance;
            // A failing chick must not be taken for one of a slower kind: one odd weight moves the probabilities little.
            var deviations = Math.Min(innovation * innovation / total, 4);
            each.Weight *= Math.Exp(-deviations / 2) / Math.Sqrt(total);
            each.Filter.Update(innovation, total);
            each.Shortfall.Update(innovation, total, each.Filter.Gain);
            sum += each.Weight;
        }

        foreach (var each in candidates)
            each.Weight /= sum;
        if (candidates.Count == 1)
            return;
        candidates.Sort((a, b) => b.Weight.CompareTo(a.Weight));
        candidates.RemoveAll(each => each.Weight < Hopeless * candidates[0].Weight);
    }

    private sealed class Candidate(ChickFilter filter, Shortfall shortfall, double weight)
    {
        public ChickFilter Filter { get; } = filter;

        public Shortfall Shortfall { get; } = shortfall;

        public double Weight { get; set; } = weight;
    }
}
