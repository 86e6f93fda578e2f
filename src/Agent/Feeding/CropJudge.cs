using CaptureAgent.Agent.Growth;

namespace CaptureAgent.Agent.Feeding;

/// <summary>What is known of a chick's crop before a weight is looked at.</summary>
/// <param name="SinceFeed">Since the last feed that is recorded; null: none is.</param>
/// <param name="FeedsToday">Recorded this nursery day.</param>
/// <param name="Emptying">Given to a crop of this age to empty.</param>
/// <param name="LastIntakeGrams">Of the last feed, where it is known.</param>
/// <param name="SeenFull">A keeper saw the crop full within the emptying time.</param>
internal readonly record struct CropClock(TimeSpan? SinceFeed, int FeedsToday, TimeSpan Emptying, decimal? LastIntakeGrams, bool SeenFull);

/// <summary>Is the crop empty? The feed clock, what was taken, and the weight against what the chick should weigh, together.</summary>
/// <remarks>
/// A feed fills the crop by 8 to 12 % of body weight (10 % at most before weaning: Harris, Primary avian pediatrics, VIN PR00290; 8 to 12 % common
/// practice, no source). In the first week a morning's weight scatters by 4 % and more about the expected one, so that weight alone cannot tell:
/// there the verdict rests on the clock.
/// </remarks>
internal static class CropJudge
{
    /// <summary>Food in the crop worth speaking of, as a share of body weight.</summary>
    public const double Noticeable = 0.03;

    /// <summary>The smallest ordinary feed, as a share of body weight.</summary>
    public const double SmallestFeed = 0.08;

    private const double LargestFeed = 0.12, OrdinaryFeed = 0.10;

    /// <summary>Through this day of age only the clock can tell.</summary>
    public const int FirstWeek = 7;

    /// <summary>Where a morning scatters more than half of the smallest feed, weight cannot tell.</summary>
    private const double TellingDeviation = SmallestFeed / 2;

    /// <summary>An empty crop weighs so many deviations more than expected in fewer than 7 of 1000 mornings (one-sided, normal).</summary>
    private const double StrongDeviations = 2.5;

    /// <summary>Shares of mornings on which a feed was given that nobody recorded, and on which a crop is slow (our own guesses, no source).</summary>
    private const double Forgotten = 0.05, Slow = 0.01;

    /// <summary>Little is left at the end of the emptying time ("nearly empty": Doneley, WSAVA 2018, p. 592): five per cent.</summary>
    private const double DecaysInEmptying = 3;

    /// <summary>How well an ordinary crop is known, one standard deviation of the logarithm of what is left.</summary>
    private const double LeftSpread = 0.5;

    /// <param name="expected">Null: not known.</param>
    /// <param name="relativeUncertainty">Of the weighing itself, one standard uncertainty.</param>
    public static CropEvidence Judge(in CropClock clock, decimal grams, double relativeUncertainty, int? ageDays, ExpectedWeight? expected)
    {
        var prior = Before(clock, grams);
        if (clock.SeenFull)
            return Of(clock, 1 - (1 - prior) * 0.01, "keeper", expected, null, "A keeper saw this crop full: nothing is read from the weight.");
        if (expected is not { } known || ageDays is not > FirstWeek || known.Deviation > TellingDeviation)
            return Of(clock, prior, "feed-clock", null, null, WhyClock(ageDays, expected));

        var deviation = Math.Sqrt(known.Deviation * known.Deviation + relativeUncertainty * relativeUncertainty);
        var excess = Math.Log((double)grams / known.Grams);
        var odds = prior / (1 - prior) * WithFood(excess, deviation) / Normal(excess, deviation);
        var probability = double.IsFinite(odds) ? odds / (1 + odds) : 1;
        return Of(clock, probability, "weight-and-clock", known with { Deviation = deviation }, excess, null);
    }

    /// <summary>The weight alone says that the crop is not empty: an empty one is so heavy in fewer than 7 of 1000 mornings, and the smallest ordinary feed explains it better.</summary>
    public static bool IsStrong(CropEvidence evidence)
    {
        if (evidence is not { ExpectedGrams: { } grams, ExpectedDeviationGrams: { } deviation, ExcessPercent: { } percent, Basis: "weight-and-clock" })
            return false;
        var excess = Math.Log(1 + percent / 100);
        return excess >= StrongDeviations * (double)(deviation / grams) && excess >= Math.Log(1 + SmallestFeed) / 2;
    }

    // By the clock alone: what the last recorded feed has left, a feed nobody recorded, a slow crop.
    private static double Before(in CropClock clock, decimal grams)
    {
        var none = (1 - Forgotten) * (1 - Slow);
        if (clock.SinceFeed is { } since)
        {
            var share = clock.LastIntakeGrams is { } taken && grams > 0 ? (double)(taken / grams) : OrdinaryFeed;
            var left = share * Math.Exp(-DecaysInEmptying * Math.Max(0, since / clock.Emptying));
            none *= 1 - Cumulative(Math.Log(left / Noticeable) / LeftSpread);
        }

        return 1 - none;
    }

    // A crop that holds between what is noticeable and the largest feed, each as likely.
    private static double WithFood(double excess, double deviation)
    {
        const int Steps = 10;
        var sum = 0.0;
        for (var i = 0; i < Steps; i++)
            sum += Normal(excess - Math.Log(1 + Noticeable + (LargestFeed - Noticeable) * (i + 0.5) / Steps), deviation);
        return sum / Steps;
    }

    private static double Normal(double x, double deviation) => Math.Exp(-0.5 * x * x / (deviation * deviation)) / deviation;

    // The logistic stand-in for the normal distribution, within 0.01 (Bowling et al. 2009, J. Ind. Eng. Manag. 2:114; from memory).
    private static double Cumulative(double z) => 1 / (1 + Math.Exp(-1.702 * z));

    private static CropEvidence Of(in CropClock clock, double probability, string basis, ExpectedWeight? expected, double? excess, string? text)
    {
        var hours = clock.SinceFeed?.TotalHours;
        var evidence = new CropEvidence(
            Math.Round(probability, 3), basis, hours is { } since ? Math.Round(since, 2) : null, clock.FeedsToday, clock.Emptying.TotalHours, clock.LastIntakeGrams,
            expected is { } known ? Math.Round((decimal)known.Grams, 1) : null,
            expected is { } spread ? Math.Round((decimal)(spread.Grams * spread.Deviation), 2) : null,
            excess is { } log ? Math.Round(100 * (Math.Exp(log) - 1), 2) : null, "");
        return evidence with { Text = $"{text ?? Weighed(evidence)} {Clock(evidence)}" };
    }

    private static string WhyClock(int? ageDays, ExpectedWeight? expected) => (ageDays, expected) switch
    {
        ({ } age, _) when age <= FirstWeek => "In the first week weight alone cannot tell whether the crop is empty: this verdict rests on the feed clock.",
        (null, _) => "The age is not known, so weight cannot tell whether the crop is empty: this verdict rests on the feed clock.",
        (_, null) => "Too few mornings are known for the weight to tell whether the crop is empty: this verdict rests on the feed clock.",
        _ => "This chick's mornings scatter too much for the weight to tell whether the crop is empty: this verdict rests on the feed clock.",
    };

    private static string Weighed(CropEvidence evidence) => FormattableString.Invariant(
        $"{evidence.ExcessPercent:+0.0;-0.0;0.0} % against the {evidence.ExpectedGrams:0.0} g expected with an empty crop (one deviation {evidence.ExpectedDeviationGrams:0.0} g).");

    private static string Clock(CropEvidence evidence) => evidence.HoursSinceFeed is { } hours
        ? FormattableString.Invariant($"Last feed {hours:0.0} h before; {evidence.EmptyingHours:0.#} h are given to empty.")
        : "No feed is recorded before it.";
}
