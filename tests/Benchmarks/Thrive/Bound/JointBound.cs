using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive.Bound;

/// <summary>What one finds who knows the law each chick grows by, looks for everything at once, and has one budget of false looks and reds for all of it.</summary>
/// <remarks>
/// One number a chick and morning: the odds that something is wrong against nothing, all that can go wrong alike likely (Bayes' rule; no other test finds more
/// of such a mixture at the same rate of false alarms, by the lemma of Neyman and Pearson). What falls short was told is not told again for three mornings.
/// </remarks>
internal sealed class JointBound
{
    /// <summary>False looks and false reds a chick and morning.</summary>
    private const double Budget = 0.012;

    private const int From = 30, Again = 3;

    private static readonly double[] FullCrops = [.. Enumerable.Range(4, 7).Select(percent => Math.Log(1 + percent / 100.0))];

    /// <summary>Of a day's gain of ln(weight), what is missing: half, all, and more.</summary>
    private static readonly Func<double, double>[] Shortfalls = [gain => gain / 2, gain => gain, gain => gain + 0.02, gain => gain + 0.03, gain => gain + 0.04];

    private static readonly double[] Shares = [1, 1, 1 / 3.0, 1 / 3.0, 1 / 3.0];

    private readonly RoomConditions conditions;
    private readonly int rooms;
    private readonly ulong disturbedSeed;
    private readonly double threshold;

    private JointBound(RoomConditions conditions, int rooms, ulong disturbedSeed, double threshold) =>
        (this.conditions, this.rooms, this.disturbedSeed, this.threshold) = (conditions, rooms, disturbedSeed, threshold);

    /// <summary>False alarms for 100 chicks and a morning: too heavy, too light.</summary>
    public (double Heavy, double Light) Spent { get; private init; }

    /// <summary>Counts on calm rooms from which odds on the budget is kept.</summary>
    public static JointBound Of(RoomConditions conditions, int rooms, ulong calmSeed, ulong disturbedSeed)
    {
        List<List<Odds>> calm = [];
        var mornings = 0;
        for (var i = 0; i < rooms; i++)
        {
            var room = new Room(conditions, calmSeed + (ulong)i);
            room.Weigh();
            foreach (var chick in room.Chicks)
            {
                var odds = OddsOf(conditions, chick, From);
                mornings += odds.Count;
                calm.Add(odds);
            }
        }

        double low = -5, high = 20;
        for (var step = 0; step < 40; step++)
        {
            var middle = (low + high) / 2;
            var (heavy, light) = Told(calm, middle);
            (low, high) = heavy + light > Budget * mornings ? (middle, high) : (low, middle);
        }

        var spent = Told(calm, high);
        return new JointBound(conditions, rooms, disturbedSeed, high) { Spent = (100.0 * spent.Heavy / mornings, 100.0 * spent.Light / mornings) };
    }

    /// <summary>By chick that it befell: the morning on which it is told. Of what is told of growth or the crop only.</summary>
    public List<int> Mornings(Disturbance disturbance)
    {
        List<int> mornings = [];
        for (var i = 0; i < rooms; i++)
        {
            var seed = disturbedSeed + (ulong)i;
            var room = new Room(disturbance.In(conditions), seed);
            var (first, befallen) = disturbance.Play(room, new SeededRandom(seed + 5000));
            foreach (var chick in befallen)
                mornings.Add(OddsOf(conditions, chick!, first).Where(each => each.All > threshold).Select(each => each.Day - first + 1).FirstOrDefault(Detection.Never));
        }

        return mornings;
    }

    private static List<Odds> OddsOf(RoomConditions conditions, RoomChick chick, int from)
    {
        var known = new FollowedChick(conditions, chick);
        List<Odds> odds = [];
        for (var day = Math.Max(from, chick.HatchDay); day < chick.Weights.Length; day++)
        {
            if (chick.Weights[day] <= 0)
                continue;
            double heavy = 0, light = 0;
            if (day - chick.HatchDay >= Disturbance.YoungestDays && day < chick.PeakDay)
            {
                var gain = chick.PlannedGain[day];
                heavy = gain >= Disturbance.CropGain ? Math.Exp(known.Heavier(day, FullCrops)) : 0;
                for (var i = 0; gain >= Disturbance.SmallestGain && i < Shortfalls.Length; i++)
                    light += Shares[i] * Math.Exp(known.Departed(day, Shortfalls[i]));
            }

            odds.Add(new Odds(day, Math.Log(heavy + light), light > heavy));
        }

        return odds;
    }

    private static (int Heavy, int Light) Told(List<List<Odds>> chicks, double threshold)
    {
        int heavy = 0, light = 0;
        foreach (var chick in chicks)
        {
            var told = int.MinValue / 2;
            foreach (var each in chick)
            {
                if (each.All <= threshold)
                    continue;
                if (!each.IsLight)
                    heavy++;
                else if (each.Day - told > Again)
                    (light, told) = (light + 1, each.Day);
            }
        }

        return (heavy, light);
    }

    /// <param name="All">ln of the odds, less a constant.</param>
    /// <param name="IsLight">Too light is likelier than too heavy.</param>
    private readonly record struct Odds(int Day, double All, bool IsLight);
}
