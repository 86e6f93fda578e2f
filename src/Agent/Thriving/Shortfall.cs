namespace CaptureAgent.Agent.Thriving;

/// <summary>Sequential test of one chick: did it stop gaining what it should, some mornings ago?</summary>
/// <remarks>
/// Likelihood ratio of a shortfall that began on one of the last mornings, averaged over that morning (the last ones before those long ago), over how much is missing, and over the courses that
/// the chick may be on (so that a chick of a slower kind is no failing one, and the other way round). Had growth fallen short by a share of each day's
/// gain since then, the filter's innovations would show a known signature, its own adapting included (Willsky and Jones 1976, from memory).
/// Correlation from day to day is the filter's matter: its innovations are white. For a healthy chick of the model the ratio exceeds a value c with a
/// probability of at most 1/c.
/// </remarks>
internal sealed class Shortfall
{
    /// <summary>Onsets looked back on, in days.</summary>
    public const int Longest = 8;

    /// <summary>A day's share is at least this much, so that a loss can be seen where nothing is gained.</summary>
    internal const double LeastShare = 0.01;

    /// <summary>Daily shares that may be missing, and how likely each is: half the gain, all of it, a loss. Most of it on what cannot wait.</summary>
    private static readonly (double Missing, double Probability)[] Shortfalls = [(0.5, 0.2), (1, 0.45), (1.7, 0.2), (3, 0.15)];

    /// <summary>An onset is so much less likely for each day that it lies back: what went wrong a week ago should have been told by now.</summary>
    private const double Recent = 0.9;

    private static readonly double[] OnsetProbability = [.. Enumerable.Range(0, Longest).Select(days => Math.Pow(Recent, days) * (1 - Recent) / (1 - Math.Pow(Recent, Longest)))];

    /// <summary>A ratio below this tells nothing; nor does a course that is less likely than this.</summary>
    private const double Negligible = 0.5, LeastWeight = 1e-6;

    private readonly Onset[] onsets = new Onset[Longest];

    // By candidate and onset: sum of signature times innovation over its variance.
    private readonly double[] scores;

    private int next;

    public Shortfall(int candidates) => scores = new double[candidates * Longest];

    private Shortfall(Shortfall other, int candidates)
    {
        other.onsets.CopyTo(onsets, 0);
        scores = other.scores[..(candidates * Longest)];
        next = other.next;
    }

    /// <summary>One day passes, of which this gain is expected.</summary>
    public void Pass(LevelFilter filter, double expectedGain)
    {
        onsets[next] = new Onset { IsOpen = true };
        for (var i = next; i < scores.Length; i += Longest)
            scores[i] = 0;
        next = (next + 1) % Longest;
        var share = Math.Max(expectedGain, LeastShare);
        foreach (ref var onset in onsets.AsSpan())
        {
            onset.Days++;
            onset.Lost += share;
            onset.Expected += expectedGain;
            onset.Level += onset.Rate;
            onset.Rate *= filter.Lasting;
            onset.Noise *= filter.Correlation;
        }
    }

    /// <summary>A weight was taken in.</summary>
    /// <param name="variance">Of its innovation.</param>
    public void Update(ReadOnlySpan<Course.Candidate> candidates, double observed, double variance, LevelFilter filter)
    {
        for (var i = 0; i < Longest; i++)
        {
            ref var onset = ref onsets[i];
            if (!onset.IsOpen)
                continue;
            var signature = -onset.Lost - onset.Level - onset.Noise;
            onset.Level += filter.Level * signature;
            onset.Rate += filter.Rate * signature;
            onset.Noise += filter.Noise * signature;
            onset.Information += signature * signature / variance;
            onset.Weights++;
            for (var each = 0; each < candidates.Length; each++)
                scores[each * Longest + i] += signature * (observed - candidates[each].Predicted) / variance;
        }
    }

    /// <summary>A candidate takes another place.</summary>
    public void Move(int from, int to) => scores.AsSpan(from * Longest, Longest).CopyTo(scores.AsSpan(to * Longest, Longest));

    /// <param name="allowed">Gain of ln(weight) a day that is still in order, where it is less than expected; null: what is expected.</param>
    public ShortfallEvidence Strongest(ReadOnlySpan<Course.Candidate> candidates, double? allowed)
    {
        double ratio = 0, best = 0;
        var strongest = default(ShortfallEvidence);
        var most = Bounded(candidates, allowed);
        if (most.Ratio < Negligible)
            return most.Evidence;
        for (var i = 0; i < Longest; i++)
        {
            ref readonly var onset = ref onsets[i];
            if (onset.Weights == 0)
                continue;
            var tolerated = onset.Tolerated(allowed);
            double mean = 0, own = 0;
            for (var each = 0; each < candidates.Length; each++)
            {
                var weight = candidates[each].Weight;
                if (weight < LeastWeight)
                    continue;
                var score = scores[each * Longest + i];
                mean += weight * score;
                score -= tolerated * onset.Information;
                if (score <= 0)
                    continue;
                foreach (var (missing, probability) in Shortfalls)
                    own += weight * probability * Math.Exp(Math.Min(missing * score - missing * missing * onset.Information / 2, 50));
            }

            ratio += own * onset.Probability;
            if (own <= best)
                continue;
            best = own;
            strongest = new ShortfallEvidence(0, onset.Days, onset.Weights, mean / onset.Information, onset.Lost / onset.Days, onset.Expected / onset.Days);
        }

        return strongest with { LogRatio = Math.Log(Math.Max(ratio, 1e-3)) };
    }

    // No more than the ratio can be, by the course that speaks most for it: on most mornings that is enough to know.
    private (double Ratio, ShortfallEvidence Evidence) Bounded(ReadOnlySpan<Course.Candidate> candidates, double? allowed)
    {
        var ratio = 0.0;
        var evidence = default(ShortfallEvidence);
        for (var i = 0; i < Longest; i++)
        {
            ref readonly var onset = ref onsets[i];
            if (onset.Weights == 0)
                continue;
            var most = 0.0;
            for (var each = 0; each < candidates.Length; each++)
            {
                if (candidates[each].Weight >= LeastWeight)
                    most = Math.Max(most, scores[each * Longest + i]);
            }

            most -= onset.Tolerated(allowed) * onset.Information;
            if (most <= 0)
                continue;
            foreach (var (missing, probability) in Shortfalls)
                ratio += probability * Math.Exp(Math.Min(missing * most - missing * missing * onset.Information / 2, 50)) * onset.Probability;
        }

        ref readonly var yesterday = ref onsets[(next + Longest - 1) % Longest];
        if (yesterday.Days > 0)
            evidence = new ShortfallEvidence(Math.Log(Math.Max(ratio, 1e-3)), yesterday.Days, yesterday.Weights, 0, yesterday.Lost / yesterday.Days, yesterday.Expected / yesterday.Days);
        return (ratio, evidence);
    }

    public Shortfall Copy(int candidates) => new(this, candidates);

    /// <summary>A morning of onset, and what the filter would believe by now had growth fallen short by one share a day since.</summary>
    private struct Onset
    {
        public bool IsOpen { get; init; }

        public double Level { get; set; }

        public double Rate { get; set; }

        public double Noise { get; set; }

        public double Lost { get; set; }

        public double Expected { get; set; }

        public int Days { get; set; }

        public int Weights { get; set; }

        public double Information { get; set; }

        public readonly double Probability => OnsetProbability[Days - 1];

        /// <summary>Daily shares that may be missing all the same.</summary>
        public readonly double Tolerated(double? allowed) => allowed is { } rate ? Math.Max(Expected - rate * Days, 0) / Lost : 0;
    }
}

/// <summary>What speaks for a shortfall.</summary>
/// <param name="LogRatio">ln of the likelihood ratio of a shortfall against healthy growth.</param>
/// <param name="Days">Days since the likeliest onset.</param>
/// <param name="Weights">Weights since then.</param>
/// <param name="Share">What is missing, in daily shares.</param>
/// <param name="DailyShare">Of ln(weight): the gain expected a day, but at least one per cent.</param>
/// <param name="ExpectedRate">Gain of ln(weight) a day that was expected since the onset.</param>
internal readonly record struct ShortfallEvidence(double LogRatio, int Days, int Weights, double Share, double DailyShare, double ExpectedRate)
{
    /// <summary>The gain of ln(weight) a day since the onset, as the evidence has it.</summary>
    public double Rate => ExpectedRate - Share * DailyShare;

    /// <summary>One weight by itself, without a likelihood.</summary>
    /// <param name="expected">Gain of ln(weight) a day that was expected of these days.</param>
    /// <param name="missing">Of ln(weight), in all.</param>
    public static ShortfallEvidence OfOneWeight(int days, double expected, double missing)
    {
        var share = Math.Max(expected, Shortfall.LeastShare);
        return new ShortfallEvidence(0, days, 1, missing / days / share, share, expected);
    }
}
