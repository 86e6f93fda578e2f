using CaptureAgent.Agent.Weighing;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Round;

/// <summary>How a chick moved on one morning.</summary>
/// <param name="Force">Of its weight, like <paramref name="Momentum"/> (seconds).</param>
internal readonly record struct MovedMorning(Guid Weighing, DateOnly Day, double Force, double Momentum);

/// <summary>What earlier weighings showed of this nursery: how each chick moves, and how restless each scale is at rest.</summary>
/// <remarks>
/// A chick's habit is the median over its last mornings, in logarithms; how far one morning strays from it is pooled over all chicks of the nursery by the median absolute
/// deviation (Hampel 1974, from memory), for a handful of mornings of one chick tell no spread. Age changes a habit slowly: what is older than two weeks is forgotten.
/// </remarks>
internal sealed class MotionMemory
{
    /// <summary>Nursery days.</summary>
    public const int DaysKept = 14;

    /// <summary>Of one chick; older mornings tell of a younger chick.</summary>
    private const int Mornings = 7;

    /// <summary>Weighings of one scale whose median tells its noise.</summary>
    private const int StillKept = 30;

    /// <summary>Presumed spread of the logarithms from morning to morning, and how many chicks' mornings it counts for (a choice; no source).</summary>
    private const double PresumedSpread = 0.5;

    private const int PresumedMornings = 12;

    /// <summary>A spread that looks smaller is chance.</summary>
    private const double LeastSpread = 0.35;

    private readonly Dictionary<string, List<MovedMorning>> chicks = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<double>> stills = new(StringComparer.Ordinal);

    /// <param name="rows">Oldest first.</param>
    public MotionMemory(IEnumerable<MotionRow> rows)
    {
        foreach (var row in rows)
        {
            var grams = row.Milligrams / 1000.0;
            Add(row.Chick, new MovedMorning(row.Weighing, row.Day, row.Motion.ForceMicrograms / 1e6 / grams, row.Motion.MomentumMicrograms / 1e6 / grams));
            if (row.Device is { } device)
                Of(stills, device).Add(row.Motion.StillMicrograms / 1e6);
        }
    }

    public void Add(string code, in MovedMorning morning)
    {
        if (morning.Force > 0 && morning.Momentum > 0)
            Of(chicks, code).Add(morning);
    }

    public void Remove(string code, Guid weighing)
    {
        if (chicks.TryGetValue(code, out var known))
            known.RemoveAll(morning => morning.Weighing == weighing);
    }

    /// <summary>Standard deviation of a scale's readings at rest, in grams, from its newest weighings; 0 where nothing is known.</summary>
    public double StillDeviationOf(string device) => stills.TryGetValue(device, out var known) ? Median(known.TakeLast(StillKept)) : 0;

    /// <summary>From the chick's mornings before a day.</summary>
    public MotionHabit HabitOf(string code, DateOnly day)
    {
        var mornings = Before(code, day);
        if (mornings.Count == 0)
            return default;
        return new MotionHabit(
            Median(mornings.Select(LogForce)), Median(mornings.Select(LogMomentum)), Spread(day, LogForce), Spread(day, LogMomentum), mornings.Count);
    }

    private double Spread(DateOnly day, Func<MovedMorning, double> log)
    {
        List<double> distances = [];
        foreach (var code in chicks.Keys)
        {
            var logs = Before(code, day).ConvertAll(morning => log(morning));
            if (logs.Count < MotionHabit.LeastMornings)
                continue;

            // A median takes a part of what strays about it: like the n - 1 of a standard deviation.
            var (middle, widened) = (Median(logs), Math.Sqrt(logs.Count / (logs.Count - 1.0)));
            distances.AddRange(logs.Select(each => widened * Math.Abs(each - middle)));
        }

        var seen = distances.Count == 0 ? 0 : 1.4826 * Median(distances);
        var squares = PresumedMornings * PresumedSpread * PresumedSpread + distances.Count * seen * seen;
        return Math.Max(LeastSpread, Math.Sqrt(squares / (PresumedMornings + distances.Count)));
    }

    // One a morning, the newest of them, oldest first.
    private List<MovedMorning> Before(string code, DateOnly day) => chicks.TryGetValue(code, out var known)
        ? [.. known.Where(morning => morning.Day < day && morning.Day >= day.AddDays(-DaysKept)).GroupBy(morning => morning.Day).Select(same => same.Last()).TakeLast(Mornings)]
        : [];

    private static double LogForce(MovedMorning morning) => Math.Log(morning.Force);

    private static double LogMomentum(MovedMorning morning) => Math.Log(morning.Momentum);

    private static double Median(IEnumerable<double> values) => Series.Median(values.Order().ToArray());

    private static List<T> Of<T>(Dictionary<string, List<T>> lists, string key)
    {
        if (!lists.TryGetValue(key, out var list))
            lists[key] = list = [];
        return list;
    }
}
