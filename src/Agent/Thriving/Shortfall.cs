namespace CaptureAgent.Agent.Thriving;

/// <summary>Sequential test of one chick: did it stop gaining what it should, some mornings ago?</summary>
/// <remarks>
/// Generalised likelihood ratio over the morning of onset (Willsky and Jones 1976, from memory): had growth fallen short by one day's share a day since
/// then, the filter's innovations would show a known signature, its own adapting included; the innovations are projected on it. Correlation from day to
/// day is the filter's matter: its innovations are white.
/// </remarks>
internal sealed class Shortfall
{
    /// <summary>Onsets looked back on, in days.</summary>
    public const int Longest = 8;

    /// <summary>A day's share is at least this much, so that a loss can be seen where nothing is gained.</summary>
    private const double LeastShare = 0.01;

    private const int N = ChickFilter.States;

    private readonly List<Onset> onsets = [];

    /// <summary>One day passes, of which the filter expects this gain.</summary>
    public void Pass(ReadOnlySpan<double> transition, double expectedGain)
    {
        onsets.RemoveAll(onset => onset.Days >= Longest);
        onsets.Add(new Onset());
        var share = Math.Max(expectedGain, LeastShare);
        foreach (var onset in onsets)
        {
            onset.Days++;
            onset.True -= share;
            onset.Lost += share;
            onset.Expected += expectedGain;
            Multiply(transition, onset.Believed);
        }
    }

    /// <summary>A weight was taken in, with these gains; all noughts where it was not.</summary>
    public void Update(double innovation, double variance, ReadOnlySpan<double> gain)
    {
        foreach (var onset in onsets)
        {
            var signature = onset.True - onset.Believed[0] - onset.Believed[N - 1];
            for (var i = 0; i < N; i++)
                onset.Believed[i] += gain[i] * signature;
            onset.Information += signature * signature / variance;
            onset.Score += signature * innovation / variance;
            onset.Weights++;
        }
    }

    /// <summary>The likeliest onset.</summary>
    /// <param name="allowed">Gain of ln(weight) a day that is still in order, where it is less than expected; null: what is expected.</param>
    public ShortfallEvidence Strongest(double? allowed)
    {
        var best = default(ShortfallEvidence);
        foreach (var onset in onsets)
        {
            if (onset.Weights == 0 || onset.Information <= 0)
                continue;
            var tolerated = allowed is { } rate ? Math.Max(onset.Expected - rate * onset.Days, 0) / onset.Lost : 0;
            var deviations = (onset.Score - tolerated * onset.Information) / Math.Sqrt(onset.Information);
            if (deviations > best.Deviations)
                best = new ShortfallEvidence(deviations, onset.Days, onset.Weights, onset.Score / onset.Information, onset.Lost / onset.Days, onset.Expected / onset.Days);
        }

        return best;
    }

    public Shortfall Copy()
    {
        var copy = new Shortfall();
        foreach (var onset in onsets)
            copy.onsets.Add(onset.Copy());
        return copy;
    }

    private static void Multiply(ReadOnlySpan<double> f, double[] vector)
    {
        Span<double> result = stackalloc double[N];
        for (var i = 0; i < N; i++)
        {
            for (var j = 0; j < N; j++)
                result[i] += f[i * N + j] * vector[j];
        }

        result.CopyTo(vector);
    }

    private sealed class Onset
    {
        public double[] Believed { get; } = new double[N];

        public double True { get; set; }

        public double Lost { get; set; }

        public double Expected { get; set; }

        public int Days { get; set; }

        public int Weights { get; set; }

        public double Information { get; set; }

        public double Score { get; set; }

        public Onset Copy()
        {
            var copy = new Onset { True = True, Lost = Lost, Expected = Expected, Days = Days, Weights = Weights, Information = Information, Score = Score };
            Believed.CopyTo(copy.Believed, 0);
            return copy;
        }
    }
}

/// <summary>What speaks for a shortfall.</summary>
/// <param name="Deviations">Standard normal where nothing is wrong and the onset is known; the largest over the onsets.</param>
/// <param name="Days">Days since the onset.</param>
/// <param name="Weights">Weights since then.</param>
/// <param name="Share">What is missing, in daily shares.</param>
/// <param name="DailyShare">Of ln(weight): the gain expected a day, but at least one per cent.</param>
/// <param name="ExpectedRate">Gain of ln(weight) a day that was expected since the onset.</param>
internal readonly record struct ShortfallEvidence(double Deviations, int Days, int Weights, double Share, double DailyShare, double ExpectedRate)
{
    /// <summary>The gain of ln(weight) a day since the onset, as the evidence has it.</summary>
    public double Rate => ExpectedRate - Share * DailyShare;
}
