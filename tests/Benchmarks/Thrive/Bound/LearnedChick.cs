using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive.Bound;

/// <summary>A simulated chick as one sees it who knows what laws it may grow by and how likely each is, and learns from its weights which it is.</summary>
/// <remarks>
/// Bayes' rule over laws that were drawn from their distribution, each with its likelihood by the weights so far (importance sampling; given the law the chick is
/// linear: Rao-Blackwellised, Doucet, de Freitas, Murphy and Russell 2000, from memory). No other rule has, for the average chick of that distribution, a
/// better forecast or, by the lemma of Neyman and Pearson, finds more of a mixture of faults at the same rate of false alarms; up to the sample's own error.
/// </remarks>
internal sealed class LearnedChick
{
    /// <summary>Laws drawn: of a species whose curve is known, and of any.</summary>
    private const int OfSpecies = 400, OfAny = 8_000;

    /// <summary>Where the age is not known, so many times that, and no older at the first weight.</summary>
    private const int OfAnyAge = 3, OldestStart = 25;

    /// <summary>How far the first weight may lie from a law's, in ln(weight); and how much less likely than the best, in logarithms, a law must be to be dropped.</summary>
    private const double FarFromFirst = 0.35, Hopeless = 8;

    /// <summary>Laws by which the odds are taken, at most: as many of each as it is likely.</summary>
    private const int Asked = 200;

    private readonly (double Full, double Short)[] odds;
    private readonly double[] deviations;

    /// <param name="from">Day from which on odds and forecasts are asked for.</param>
    private LearnedChick(RoomChick chick, List<PossibleChick> possible, int first, int from)
    {
        odds = new (double, double)[chick.Weights.Length];
        deviations = new double[chick.Weights.Length];
        for (var day = first; day < odds.Length; day++)
        {
            if (day > first)
                possible.ForEach(each => each.Pass());
            if (chick.Weights[day] <= 0)
                continue;
            if (day >= from && day > first)
                deviations[day] = Deviation(possible);
            var log = Math.Log(chick.Weights[day]);
            possible.ForEach(each => each.Take(log));
            var best = possible.Max(each => each.LogLikelihood);
            possible.RemoveAll(each => each.LogLikelihood < best - Hopeless);
            if (day >= from)
                odds[day] = Odds(possible, best);
        }
    }

    /// <summary>By one who is told the law.</summary>
    public static LearnedChick ToldTheLaw(RoomConditions conditions, RoomChick chick, int from)
    {
        var first = First(chick);
        return new LearnedChick(chick, [new PossibleChick(conditions, chick.Law, first - chick.HatchDay)], first, from);
    }

    /// <summary>By one who is told what the register tells: the species, if its curve is published, and the day of hatching, if a keeper knows it.</summary>
    public static LearnedChick ToldTheRegister(RoomConditions conditions, RoomChick chick, int from, SeededRandom random)
    {
        var first = First(chick);
        var log = Math.Log(chick.Weights[first]);
        var isListed = chick.Species.Name.Length > 0;
        List<PossibleChick> possible = [];
        for (var left = (isListed ? OfSpecies : OfAny) * (chick.TellsHatchDate ? 1 : OfAnyAge); left > 0; left--)
        {
            var law = ChickLaw.Draw(isListed ? chick.Species : SpeciesCurve.Draw(random, unlisted: 1), random);
            var age = chick.TellsHatchDate ? first - chick.HatchDay : (int)random.Between(0, OldestStart);
            if (!law.IsGrowing(age) || Math.Abs(law.LogGrams(age) - log) < FarFromFirst)
                possible.Add(new PossibleChick(conditions, law, age));
        }

        return new LearnedChick(chick, possible, first, from);
    }

    /// <summary>Odds of a full crop on a morning against nothing wrong, and of growth that falls short.</summary>
    public (double Full, double Short) Odds(int day) => odds[day];

    /// <summary>Standard deviation of ln(weight) on a morning as foretold before it; null for the first weight, and where there is none.</summary>
    public double? Deviation(int day) => deviations[day] > 0 ? deviations[day] : null;

    private static int First(RoomChick chick) => Array.FindIndex(chick.Weights, weight => weight > 0);

    private static double Deviation(List<PossibleChick> possible)
    {
        var best = possible.Max(each => each.LogLikelihood);
        double all = 0, mean = 0, square = 0;
        foreach (var each in possible)
        {
            var weight = Math.Exp(each.LogLikelihood - best);
            var (forecast, variance) = each.Forecast();
            all += weight;
            mean += weight * forecast;
            square += weight * (forecast * forecast + variance);
        }

        mean /= all;
        return Math.Sqrt(square / all - mean * mean);
    }

    // Systematic sampling: every so much of the probability one law is asked.
    private static (double, double) Odds(List<PossibleChick> possible, double best)
    {
        var step = possible.Sum(each => Math.Exp(each.LogLikelihood - best)) / Asked;
        double passed = 0, next = step / 2, full = 0, fallen = 0;
        foreach (var each in possible)
        {
            passed += Math.Exp(each.LogLikelihood - best);
            if (passed < next)
                continue;
            var times = Math.Floor((passed - next) / step) + 1;
            var (ofFull, ofShort) = each.Odds();
            (next, full, fallen) = (next + times * step, full + times * ofFull, fallen + times * ofShort);
        }

        return (full / Asked, fallen / Asked);
    }
}
