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
    public const double Red = 3, SteepRed = 4;

    /// <summary>A shortfall worth a note; in standard deviations a gain.</summary>
    public const double Note = 0.5, GoodNote = 2;

    /// <summary>One weight that another reading of the digits would explain, in standard deviations.</summary>
    public const double OddWeight = 3.2;

    /// <summary>One weight that nothing explains.</summary>
    public const double Impossible = 7;

    /// <summary>Past the peak a gain is no concern before this, in standard deviations.</summary>
    private const double GainPastPeak = 4;

    /// <summary>False looks a morning for 100 chicks: for weights above the course, and for shortfalls. The other tests need what is left.</summary>
    private const double TooGoodShare = 0.43, ShortfallShare = 0.54;

    /// <summary>Of a chick of which every other morning would be a false alarm nothing could be learnt.</summary>
    private const double Most = 0.025;

    private readonly double tooGood, shortfall;

    private Budget(double tooGood, double shortfall) => (this.tooGood, this.shortfall) = (tooGood, shortfall);

    /// <param name="weighed">The chicks weighed this morning.</param>
    public static Budget Divide(IReadOnlyCollection<ChickMorning> weighed)
    {
        double growing = 0, claims = 0;
        foreach (var each in weighed)
        {
            growing += Gain(each.Watch);
            claims += Claim(each.Watch).Weight;
        }

        var looks = weighed.Count / 100.0;
        return new Budget(TooGoodShare * looks / Math.Max(growing, 1), ShortfallShare * looks / Math.Max(claims, 1));
    }

    /// <summary>Standard deviations above its course from which on a weight is a look.</summary>
    public double TooGood(ChickWatch watch)
    {
        // Weights stray a little further than a normal distribution has it.
        const double Tail = 1.15;
        return Gain(watch) is > 0 and var claim ? MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, 1 - Math.Min(tooGood * claim, Most) / Tail) : GainPastPeak;
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
    private static (double Weight, double Reached, double Fall) Claim(ChickWatch watch) => watch.Stage switch
    {
        Stage.Hatchling => (0, 0, 1),
        Stage.Growing => watch.Shortfall.ExpectedRate switch
        {
            >= 0.06 => (1, 0.15, 1.15),
            >= 0.03 => (4, 1.5, 1.15),
            >= 0.015 => (2, 1.7, 1.6),
            _ => (0.5, 2.4, 0.6),
        },
        Stage.Peak => (0.5, 1.1, 3),
        _ => (0.25, 1.7, 0.8),
    };
}
