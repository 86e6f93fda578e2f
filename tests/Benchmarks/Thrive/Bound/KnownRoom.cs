using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive.Bound;

/// <summary>A simulated room beside its twin to which nothing was done.</summary>
internal sealed class KnownRoom(RoomConditions conditions, Room weighed, ulong seed)
{
    private readonly Room healthy = new(conditions, seed);
    private readonly Dictionary<RoomChick, KnownChick> known = [];

    public Room Room => weighed;

    public KnownChick Of(RoomChick chick)
    {
        if (!known.TryGetValue(chick, out var seen))
            known[chick] = seen = new KnownChick(conditions, chick, healthy.Chicks[weighed.Chicks.TakeWhile(other => other != chick).Count()]);
        return seen;
    }

    /// <summary>The other of the first two of its nest; null where it has none.</summary>
    public KnownChick? Mate(RoomChick chick, int day)
    {
        var nest = weighed.Chicks.Where(other => other.Clutch == chick.Clutch && other.Weights[day] > 0 && day - other.HatchDay >= 6).Take(2).ToList();
        return nest is [var a, var b] && (a == chick || b == chick) ? Of(a == chick ? b : a) : null;
    }

    /// <summary>The middle of all residuals, in its own standard deviations.</summary>
    public double RoomZ(int day)
    {
        double sum = 0, information = 0;
        foreach (var chick in weighed.Chicks.Where(chick => chick.Weights[day] > 0 && day > chick.HatchDay))
        {
            var (mean, deviation) = Of(chick).Foretell(day);
            var own = deviation * deviation - conditions.CommonNoise * conditions.CommonNoise;
            sum += (Math.Log(chick.Weights[day]) - mean) / own;
            information += 1 / own;
        }

        return information == 0 ? 0 : sum / information / Math.Sqrt(1 / information + conditions.CommonNoise * conditions.CommonNoise);
    }
}
