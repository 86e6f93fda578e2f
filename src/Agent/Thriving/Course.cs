namespace CaptureAgent.Agent.Thriving;

/// <summary>The courses that one chick may be on, each with its probability, and what it should weigh.</summary>
/// <remarks>
/// Given the course the chick's ln(weight) is linear, so that one filter serves all; which course it is, is averaged over (Bayesian model averaging).
/// </remarks>
internal sealed class Course
{
    /// <summary>A course this much less likely than the best, in logarithms, is dropped once the chick has some weights.</summary>
    private const double Hopeless = 11;

    private const int HopelessFrom = 4;

    /// <summary>Wandering of the rate once growth is over, per day: how fast a chick recedes, and whether, shows only then.</summary>
    private const double RecessionWander = 0.002;

    /// <summary>By so much chicks peak before their courses have it: many turn where they still gain a per cent a day.</summary>
    private const int SoonDays = 7;

    /// <summary>Weights from which on a chick tells its kin something.</summary>
    private const int Told = 4;

    private readonly SpeciesGrowth species;
    private readonly Candidate[] candidates;
    private readonly LevelFilter filter;
    private readonly Shortfall shortfall;
    private int count, weights;

    // By reference: a candidate is large, and this is asked thousands of times.
    private delegate double Value(in Candidate each);

    public Course(SpeciesGrowth species, IReadOnlyList<GrowthStart> starts, double logGrams, double variance, NoiseLevel noise, in Tuning tuning)
    {
        this.species = species;
        count = starts.Count;
        weights = 1;
        candidates = new Candidate[count];
        for (var i = 0; i < count; i++)
            candidates[i] = new Candidate { Row = species.Rows[starts[i].Row], Index = starts[i].Row, Age = starts[i].Age, Level = logGrams, Own = starts[i].LogPrior, LogPrior = starts[i].LogPrior };
        shortfall = new Shortfall(count);
        Learn();
        filter = new LevelFilter(variance, LevelFilter.RateVariance(MeanGain(), tuning), noise);
    }

    private Course(Course other)
    {
        (species, count, weights) = (other.species, other.count, other.weights);
        candidates = [.. other.candidates.AsSpan(0, count)];
        filter = other.filter.Copy();
        shortfall = other.shortfall.Copy(count);
    }

    public SpeciesGrowth Species => species;

    /// <summary>ln(weight) without the day's noise.</summary>
    public double Level => Mean(static (in Candidate each) => each.Level);

    /// <summary>Growth rate per day.</summary>
    public double Rate => Mean(static (in Candidate each) => each.Row.Gain(each.Age) + each.Rate);

    /// <summary>Part of its final weight that a chick of this age has reached.</summary>
    public double PartOfCurve => Mean(static (in Candidate each) => Math.Exp(each.Row.LogPart(each.Age)));

    /// <summary>Probability that growth is over.</summary>
    public double IsOver => Mean(static (in Candidate each) => each.Age >= each.Row.OverAt ? 1 : 0);

    /// <summary>Probability that it is over before long, or already.</summary>
    public double IsSoonOver => Mean(static (in Candidate each) => each.Age + SoonDays >= each.Row.OverAt ? 1 : 0);

    public Course Copy() => new(this);

    /// <summary>What speaks for a shortfall, over all courses.</summary>
    public ShortfallEvidence Strongest(double? allowed) =>
        shortfall.Strongest(candidates.AsSpan(0, count), allowed);

    /// <summary>One day passes.</summary>
    /// <param name="kin">What its like say of the courses, after this chick told what it has to say; null: nothing new.</param>
    public void Pass(Kin? kin, in Tuning tuning, NoiseLevel noise)
    {
        if (kin is not null)
            Hear(kin);
        Weigh();
        var age = Mean(static (in Candidate each) => each.Age);
        var gain = MeanGain();
        var over = IsOver;
        foreach (ref var each in candidates.AsSpan(0, count))
        {
            each.Level += each.Row.Gain(each.Age) + each.Rate;
            each.Rate *= tuning.Lasting;
            each.Noise *= noise.Correlation;
            each.Age++;
        }

        filter.Pass(gain, age < Tuning.HatchlingDays ? tuning.HatchlingJump : tuning.LevelJump, noise, tuning with { RateFloor = (1 - over) * tuning.RateFloor + over * RecessionWander });
        shortfall.Pass(filter, gain + Mean(static (in Candidate each) => each.Rate));
    }

    /// <summary>Mean and variance of ln(weight) over the courses, without the weighing's own error.</summary>
    public (double Mean, double Variance) Predict()
    {
        double mean = 0, square = 0;
        var first = candidates[0].Predicted;
        foreach (ref var each in candidates.AsSpan(0, count))
        {
            var off = each.Predicted - first;
            mean += each.Weight * off;
            square += each.Weight * off * off;
        }

        return (first + mean, filter.Variance + Math.Max(square - mean * mean, 0));
    }

    /// <param name="observed">ln(grams), the room's common shift taken off.</param>
    /// <param name="variance">Of the weighing and of what makes it doubtful.</param>
    public void Take(double observed, double variance)
    {
        var total = filter.Variance + variance;
        filter.Update(total);
        shortfall.Update(candidates.AsSpan(0, count), observed, total, filter);
        foreach (ref var each in candidates.AsSpan(0, count))
        {
            var innovation = observed - each.Predicted;
            each.Own -= innovation * innovation / total / 2;
            each.Level += filter.Level * innovation;
            each.Rate += filter.Rate * innovation;
            each.Noise += filter.Noise * innovation;
        }

        weights++;
        Prune();
        Learn();
    }

    /// <summary>All weights are others from now on, by this much in ln(weight).</summary>
    public void Shift(double by)
    {
        foreach (ref var each in candidates.AsSpan(0, count))
            each.Level += by;
    }

    /// <summary>Tells the kin which courses the chick's own weights speak for, without what the first of them says of the size.</summary>
    public void Tell(Kin kin)
    {
        if (weights < Told)
            return;
        var best = double.NegativeInfinity;
        foreach (ref var each in candidates.AsSpan(0, count))
            best = Math.Max(best, each.Own - each.LogPrior);
        var sum = 0.0;
        foreach (ref var each in candidates.AsSpan(0, count))
            sum += each.Kin = Math.Exp(each.Own - each.LogPrior - best) * kin.Prior(each.Index);
        foreach (ref var each in candidates.AsSpan(0, count))
            each.Kin /= sum;
        Span<(int, double)> shares = count <= 512 ? stackalloc (int, double)[count] : new (int, double)[count];
        for (var i = 0; i < count; i++)
            shares[i] = (candidates[i].Index, candidates[i].Kin);
        kin.Add(shares);
    }

    // Where the chick told something, Kin has that until now.
    private void Hear(Kin kin)
    {
        foreach (ref var each in candidates.AsSpan(0, count))
            each.Kin = kin.Factor(each.Index, weights >= Told ? each.Kin : null);
    }

    private double MeanGain() => Mean(static (in Candidate each) => each.Row.Gain(each.Age));

    private double Mean(Value value)
    {
        var sum = 0.0;
        foreach (ref readonly var each in candidates.AsSpan(0, count))
            sum += each.Weight * value(in each);
        return sum;
    }

    private double Best()
    {
        var best = double.NegativeInfinity;
        foreach (ref readonly var each in candidates.AsSpan(0, count))
            best = Math.Max(best, each.Own);
        return best;
    }

    // By the chick's own weights.
    private void Learn()
    {
        var best = Best();
        foreach (ref var each in candidates.AsSpan(0, count))
            each.Likelihood = Math.Exp(each.Own - best);
        Weigh();
    }

    private void Weigh()
    {
        var sum = 0.0;
        foreach (ref var each in candidates.AsSpan(0, count))
            sum += each.Weight = each.Likelihood * each.Kin;
        foreach (ref var each in candidates.AsSpan(0, count))
            each.Weight /= sum;
    }

    // Before the weights are made: what its like say may still speak for one that goes.
    private void Prune()
    {
        if (weights < HopelessFrom)
            return;
        var least = Best() - Hopeless;
        var kept = 0;
        for (var i = 0; i < count; i++)
        {
            if (candidates[i].Own < least)
                continue;
            shortfall.Move(i, kept);
            candidates[kept++] = candidates[i];
        }

        count = kept;
    }

    /// <summary>One course, and where the chick is if it is on it.</summary>
    internal struct Candidate
    {
        public Candidate()
        {
        }

        public required GrowthRow Row { get; init; }

        /// <summary>Of the row among its species'.</summary>
        public required int Index { get; init; }

        public int Age { get; set; }

        /// <summary>ln(weight) without noise; the chick's own rate less the course's, per day; the day's noise.</summary>
        public double Level { get; set; }

        public double Rate { get; set; }

        public double Noise { get; set; }

        /// <summary>ln of the likelihood by the chick's own weights, and of the prior.</summary>
        public double Own { get; set; }

        public required double LogPrior { get; init; }

        /// <summary>By Own, beside the likeliest course.</summary>
        public double Likelihood { get; set; }

        /// <summary>By what factor its like make the course likelier.</summary>
        public double Kin { get; set; } = 1;

        /// <summary>Probability.</summary>
        public double Weight { get; set; }

        public readonly double Predicted => Level + Noise;
    }
}
