namespace CaptureAgent.Agent.Thriving;

/// <summary>From which evidence on a finding is told, so that a morning has at most one false look and 0.2 false reds for 100 chicks.</summary>
/// <remarks>
/// The looks of a morning are divided anew among the chicks that were weighed: what a test may spend on one chick is the share of healthy chicks that
/// reach its threshold. Chicks that grow fast have the least in reserve and are told soonest; where a room has few of them, each is given more. Nothing
/// is taken from tables of independent tests: how far healthy simulated chicks go was counted, day after day, with correlated noise and over all onsets
/// (`thrive` among the benchmarks shows what comes of it).
/// </remarks>
internal readonly record struct Budget
{
    /// <summary>ln of the likelihood ratio from which on a loss or a stall cannot wait; for a loss past the peak likewise.</summary>
    public const double Red = 2.2, SteepRed = 4;

    /// <summary>A shortfall worth a note; in standard deviations a gain.</summary>
    public const double Note = 0.5, GoodNote = 1.8;

    /// <summary>One weight that another reading of the digits would explain, in standard deviations.</summary>
    public const double OddWeight = 3.2;

    /// <summary>One weight that nothing explains.</summary>
    public const double Impossible = 7;

    /// <summary>Past the peak a gain is no concern before this, in standard deviations.</summary>
    private const double GainPastPeak = 3;

    /// <summary>Of a chick with fewer weights the forecast strays further than it says, by so much; from the fourth weight on no further, in simulated rooms of either kind.</summary>
    private const int Known = 4;

    private const double NewChick = 1.5;

    /// <summary>False looks a morning for 100 chicks: for weights above the course where noise is fresh each day, less for each unit of its correlation; and for shortfalls. The other tests need what is left.</summary>
    /// <remarks>The slower the noise, the more it looks like growth that falls short: by count a half more healthy chicks are told of it at a correlation of 0.7 than at none.</remarks>
    private const double TooGoodShare = 0.64, LessCorrelated = 0.2, ShortfallShare = 0.66;

    /// <summary>Of a chick of which every other morning would be a false alarm nothing could be learnt.</summary>
    private const double Most = 0.025;

    /// <summary>Standard deviation of a weight about its forecast, in ln(weight), for which the claims are counted.</summary>
    private const double UsualDeviation = 0.021;

    /// <summary>By the gain of ln(weight) a day that is expected of a growing chick.</summary>
    private static readonly (double Rate, Claimed Claim)[] Claims =
    [
        (0.012, new Claimed(0.3, 2.4, 0.6)), (0.02, new Claimed(1.5, 1.7, 1.6)), (0.027, new Claimed(4, 1.5, 1.15)), (0.06, new Claimed(4, 1.5, 1.15)), (0.08, new Claimed(1, 0.15, 1.15)),
    ];

    private readonly double tooGood, shortfall;

    private Budget(double tooGood, double shortfall) => (this.tooGood, this.shortfall) = (tooGood, shortfall);

    /// <param name="weighed">The chicks weighed this morning.</param>
    /// <param name="correlation">Of the room's noise from one day to the next.</param>
    public static Budget Divide(IReadOnlyCollection<ChickMorning> weighed, double correlation)
    {
        double growing = 0, claims = 0;
        foreach (var each in weighed)
        {
            growing += Gain(each.Watch);
            claims += Claim(each.Watch).Weight;
        }

        var looks = weighed.Count / 100.0;
        return new Budget((TooGoodShare - LessCorrelated * correlation) * looks / Math.Max(growing, 1), ShortfallShare * looks / Math.Max(claims, 1));
    }

    /// <summary>Standard deviations above its course from which on a weight is a look.</summary>
    public double TooGood(ChickWatch watch)
    {
        // Weights stray a little further than a normal distribution has it.
        const double Tail = 1.15;
        if (Gain(watch) is not (> 0 and var claim))
            return GainPastPeak;
        var told = MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, 1 - Math.Min(tooGood * claim, Most) / Tail);
        return watch.Count < Known ? NewChick * told : told;
    }

    /// <summary>ln of the likelihood ratio from which on a shortfall is a look.</summary>
    public double Shortfall(ChickWatch watch)
    {
        var (weight, reached, fall) = Claim(watch);
        return reached + Math.Log(0.01 / Math.Min(shortfall * weight, Most)) / fall;
    }

    // How much of the budget for weights above the course a chick claims.
    private static double Gain(ChickWatch watch) => watch.Stage != Stage.Growing ? 0 : watch.Rate >= 0.015 ? 1 : 0.4;

    // How much of the budget for shortfalls it claims; the ratio that one healthy chick of a hundred reaches; and how fast they become fewer beyond it.
    private static Claimed Claim(ChickWatch watch) => watch.Stage switch
    {
        Stage.Hatchling => new Claimed(0, 0, 1),
        Stage.Growing => OfRate(watch.Shortfall.ExpectedRate * UsualDeviation / watch.Deviation),
        Stage.Peak => new Claimed(0.5, 1.1, 3),
        _ => new Claimed(0.25, 1.7, 0.8),
    };

    // Where weights stray twice as far a gain of 6 % is told as late as one of 3 % elsewhere. In between it is taken straight: with steps a chick that gains a little less would be looked at much later.
    private static Claimed OfRate(double rate)
    {
        var i = 1;
        while (i < Claims.Length - 1 && rate > Claims[i].Rate)
            i++;
        var (low, high) = (Claims[i - 1], Claims[i]);
        var part = Math.Clamp((rate - low.Rate) / (high.Rate - low.Rate), 0, 1);
        return new Claimed(Between(low.Claim.Weight, high.Claim.Weight), Between(low.Claim.Reached, high.Claim.Reached), Between(low.Claim.Fall, high.Claim.Fall));

        double Between(double a, double b) => a + part * (b - a);
    }

    private readonly record struct Claimed(double Weight, double Reached, double Fall);
}
