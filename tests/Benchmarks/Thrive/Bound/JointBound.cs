using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive.Bound;

/// <summary>What one finds who knows more of the chicks than the agent, looks for everything at once, and has one budget of false looks and reds for all of it.</summary>
/// <remarks>
/// One number a chick and morning: the odds that something is wrong against nothing, all that can go wrong alike likely (Bayes' rule; no other test finds more
/// of such a mixture at the same rate of false alarms, by the lemma of Neyman and Pearson). What falls short was told is not told again for three mornings.
/// </remarks>
internal sealed class JointBound
{
    /// <summary>False looks and false reds a chick and morning.</summary>
    private const double Budget = 0.012;

    private const int From = 30, Again = 3;

    private readonly RoomConditions conditions;
    private readonly int rooms;
    private readonly ulong disturbedSeed;
    private readonly Func<RoomChick, int, LearnedChick> seen;
    private readonly double threshold;

    private JointBound(RoomConditions conditions, int rooms, ulong disturbedSeed, Func<RoomChick, int, LearnedChick> seen, double threshold) =>
        (this.conditions, this.rooms, this.disturbedSeed, this.seen, this.threshold) = (conditions, rooms, disturbedSeed, seen, threshold);

    /// <summary>False alarms for 100 chicks and a morning: too heavy, too light.</summary>
    public (double Heavy, double Light) Spent { get; private init; }

    /// <summary>Of the 95 % interval, in per cent of the expected weight; the median.</summary>
    public double Width { get; private init; }

    /// <summary>Of one who knows the law that each chick grows by.</summary>
    public static JointBound ToldTheLaws(RoomConditions conditions, int rooms, ulong calmSeed, ulong disturbedSeed) =>
        Of(conditions, rooms, calmSeed, disturbedSeed, (chick, from) => LearnedChick.ToldTheLaw(conditions, chick, from));

    /// <summary>Of one who knows what chicks are like, the noise, and what the register tells.</summary>
    public static JointBound ToldTheRegister(RoomConditions conditions, int rooms, ulong calmSeed, ulong disturbedSeed)
    {
        var random = new SeededRandom(calmSeed + 9000);
        return Of(conditions, rooms, calmSeed, disturbedSeed, (chick, from) => LearnedChick.ToldTheRegister(conditions, chick, from, random));
    }

    // Counts on calm rooms from which odds on the budget is kept.
    private static JointBound Of(RoomConditions conditions, int rooms, ulong calmSeed, ulong disturbedSeed, Func<RoomChick, int, LearnedChick> seen)
    {
        List<List<Odds>> calm = [];
        List<double> deviations = [];
        var mornings = 0;
        for (var i = 0; i < rooms; i++)
        {
            var room = new Room(conditions, calmSeed + (ulong)i);
            room.Weigh();
            foreach (var chick in room.Chicks)
            {
                var learned = seen(chick, From);
                var odds = OddsOf(learned, chick, From);
                deviations.AddRange(Enumerable.Range(From, room.Days - From).Select(learned.Deviation).OfType<double>());
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
        return new JointBound(conditions, rooms, disturbedSeed, seen, high)
        {
            Spent = (100.0 * spent.Heavy / mornings, 100.0 * spent.Light / mornings),
            Width = 100 * 2 * MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, 0.975) * deviations.Order().ElementAt(deviations.Count / 2),
        };
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
                mornings.Add(OddsOf(seen(chick!, first), chick!, first).Where(each => each.All > threshold).Select(each => each.Day - first + 1).FirstOrDefault(Detection.Never));
        }

        return mornings;
    }

    private static List<Odds> OddsOf(LearnedChick learned, RoomChick chick, int from)
    {
        List<Odds> odds = [];
        for (var day = Math.Max(from, chick.HatchDay); day < chick.Weights.Length; day++)
        {
            if (chick.Weights[day] <= 0)
                continue;
            var (full, fallen) = learned.Odds(day);
            odds.Add(new Odds(day, Math.Log(full + fallen), fallen > full));
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
