using CaptureAgent.Agent.Growth.References;
using CaptureAgent.Simulators.Physics;

namespace CaptureAgent.Benchmarks.Crop;

/// <summary>A chick that grows along a published curve of some species, its own way: another size, some days early or late, and a slow loss after the peak.</summary>
internal sealed class SimulatedChick
{
    private static readonly List<(string Species, Func<double, double> Grams)> Published = Read();

    private readonly double[] mornings;

    /// <param name="scatter">SD of a morning's ln weight about the curve.</param>
    /// <param name="correlation">Of one morning's scatter with the next one's.</param>
    /// <param name="age">Of the last morning, in days.</param>
    public SimulatedChick(SeededRandom random, double scatter, double correlation, int age)
    {
        var (species, curve) = Published[(int)(random.Unit() * Published.Count)];
        Species = species;
        var size = Math.Exp(0.10 * random.Normal());
        var shift = random.Normal();
        mornings = new double[age + 1];
        var off = scatter * random.Normal();
        for (var day = 0; day <= age; day++)
        {
            off = correlation * off + Math.Sqrt(1 - correlation * correlation) * scatter * random.Normal();
            mornings[day] = size * curve(day + shift) * Math.Exp(off);
        }
    }

    public string Species { get; }

    /// <summary>Grams with an empty crop, by day of age.</summary>
    public IReadOnlyList<double> Mornings => mornings;

    // The parameters that ship with the agent; each logistic and each Gompertz curve is one.
    private static List<(string Species, Func<double, double> Grams)> Read() =>
    [
        .. from series in PublishedSeries.All
           from curve in new[] { series.Logistic, series.Gompertz }
           where curve is not null
           select (series.Species, WithRecession(curve.Grams, curve.Parameters[0])),
    ];

    // Half a per cent a day from the day on which 97 % are reached, 12 % in all ("around 10 % from maximum": Duerr and Gage 2020, p. 599).
    private static Func<double, double> WithRecession(Func<double, double> curve, double asymptote)
    {
        const double PeakShare = 0.97, DailyLoss = 0.005, WholeLoss = 0.12;
        var peak = 0;
        while (peak < 300 && curve(peak) < PeakShare * asymptote)
            peak++;
        return day => day <= peak ? curve(day) : curve(peak) * (1 - Math.Min(WholeLoss, DailyLoss * (day - peak)));
    }
}
