using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Round;

/// <summary>What a chick should weigh on a day, by its own weights before that day.</summary>
/// <param name="Grams">Middle.</param>
/// <param name="Deviation">Standard deviation of ln(grams).</param>
/// <param name="Weights">How many weights it comes from.</param>
internal readonly record struct Forecast(double Grams, double Deviation, int Weights)
{
    /// <summary>Standardised residual of a weight.</summary>
    public double ZOf(double grams) => Math.Log(grams / Grams) / Deviation;

    /// <summary>ln of the likelihood of a weight, less a constant.</summary>
    public double LogLikelihood(double grams) => -ZOf(grams) * ZOf(grams) / 2 - Math.Log(Deviation);
}

/// <summary>The forecasts of all chicks, each carried on with every weight and begun anew where the record before it changed.</summary>
internal sealed class Forecasts(Ledger ledger)
{
    private static readonly Tuning Tuning = Tuning.Usual;

    /// <summary>Weights looked back on, in days.</summary>
    private const int LookedBack = RoomRecord.DaysRead;

    private readonly GrowthPriors priors = new(PublishedGrowth.Instance, Tuning);
    private readonly Dictionary<string, Followed> followed = new(StringComparer.Ordinal);

    /// <summary>Null for a chick without a weight before the day, or with none in the two months before it.</summary>
    public Forecast? Of(string code, DateOnly day)
    {
        var weights = ledger.WeightsOf(code);
        var n = weights.Count;
        while (n > 0 && weights[n - 1].Day >= day)
            n--;
        if (n == 0 || day.DayNumber - weights[n - 1].Day.DayNumber > 60)
            return null;
        var from = n - 1;
        while (from > 0 && day.DayNumber - weights[from - 1].Day.DayNumber <= LookedBack)
            from--;
        if (!followed.TryGetValue(code, out var chick) || !chick.IsPartOf(weights, n))
            followed[code] = chick = new Followed(ledger.Find(code) ?? new Chick(code, null, null), weights[from].Day, from);
        for (var i = chick.First + chick.Ids.Count; i < n; i++)
            chick.Take(weights[i], priors);
        return chick.On(day);
    }

    private sealed class Followed(Chick chick, DateOnly since, int firstIndex)
    {
        private readonly ChickWatch watch = new(new WatchedChick(chick.Code, chick.Species, chick.Hatched <= since ? chick.Hatched : null, null, null, []), Tuning);

        private (DateOnly Day, Forecast Told)? told;

        public int First => firstIndex;

        public List<Guid> Ids { get; } = [];

        /// <summary>Whether what was followed is what the record has now, up to its n-th weight.</summary>
        public bool IsPartOf(IReadOnlyList<Weight> weights, int n)
        {
            if (First + Ids.Count > n)
                return false;
            for (var i = 0; i < Ids.Count; i++)
            {
                if (weights[First + i].Id != Ids[i])
                    return false;
            }

            return true;
        }

        public void Take(in Weight weight, GrowthPriors priors)
        {
            Ids.Add(weight.Id);
            told = null;
            var morning = new MorningWeight(weight.Day, weight.Grams, weight.UncertaintyGrams, weight.Decimals);
            watch.PassTo(weight.Day, NoiseLevel.Usual);
            if (watch.Compare(morning) is { } compared)
                watch.Take(compared, compared.Doubt(), PublishedGrowth.Instance);
            else
                watch.Start(morning, priors, NoiseLevel.Usual);
        }

        // Asked for with every reading while a chick lies there.
        public Forecast On(DateOnly day)
        {
            if (told is { } last && last.Day == day)
                return last.Told;
            var ahead = watch.Copy();
            ahead.PassTo(day, NoiseLevel.Usual);
            var (expected, deviation) = ahead.Forecast()!.Value;
            var forecast = new Forecast(Math.Exp(expected), deviation, Ids.Count);
            told = (day, forecast);
            return forecast;
        }
    }
}
