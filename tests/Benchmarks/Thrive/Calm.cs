using CaptureAgent.Agent.Thriving;
using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive;

/// <summary>Rooms in which nothing is wrong: false alarms, and how well the interval holds.</summary>
internal sealed class Calm
{
    /// <summary>The room is looked at when it has been weighed for a month.</summary>
    private const int From = 30;

    private readonly List<double> widths = [];
    private int forecasts, inside;

    public int ChickMornings { get; private set; }

    public SortedDictionary<string, int> Told { get; } = new(StringComparer.Ordinal);

    public (int Any, int Little) Baseline { get; private set; }

    /// <summary>Mornings of chicks whose recession had begun.</summary>
    public int RecessionMornings { get; private set; }

    /// <summary>What was red on those, in words.</summary>
    public List<string> RecessionReds { get; } = [];

    public int Shifts { get; private set; }

    public int Mornings { get; private set; }

    public double Coverage => 100.0 * inside / forecasts;

    /// <summary>Of the 95 % interval, in per cent of the expected weight; the median.</summary>
    public double Width => 100 * widths.Order().ElementAt(widths.Count / 2);

    public static Calm Of(RoomConditions conditions, int rooms, ulong seed)
    {
        var calm = new Calm();
        var reviewed = Enumerable.Range(0, rooms).AsParallel().AsOrdered().Select(i =>
        {
            var room = new Room(conditions, seed + (ulong)i);
            room.Weigh();
            return new ReviewedRoom(room);
        });
        foreach (var each in reviewed)
            calm.Add(each);
        return calm;
    }

    /// <summary>Per 100 chicks and morning.</summary>
    public double Rate(string severity) => 100.0 * Told.Where(each => each.Key.StartsWith(severity + " ", StringComparison.Ordinal)).Sum(each => each.Value) / ChickMornings;

    private void Add(ReviewedRoom reviewed)
    {
        for (var day = From; day < reviewed.Room.Days; day++)
        {
            Mornings++;
            Shifts += reviewed.Of(null, day).Count;
            var morning = reviewed.Mornings[day - reviewed.FirstDay];
            foreach (var chick in reviewed.Room.Chicks.Where(chick => chick.Weights[day] > 0))
            {
                ChickMornings++;
                Baseline = (Baseline.Any + (Baselines.AnyLoss(chick, day) ? 1 : 0), Baseline.Little + (Baselines.LittleGain(chick, day) ? 1 : 0));
                foreach (var finding in reviewed.Of(chick.Code, day))
                    Told[$"{finding.Severity} {finding.Kind}"] = Told.GetValueOrDefault($"{finding.Severity} {finding.Kind}") + 1;
                if (day > chick.PeakDay)
                {
                    RecessionMornings++;
                    if (reviewed.Of(chick.Code, day).FirstOrDefault(finding => finding.Severity == Severities.Red) is { } red)
                        RecessionReds.Add($"day {day}, {day - chick.PeakDay} after the peak, species '{chick.Species.Name}': {red.Kind}, {red.Text}");
                }

                if (!morning.TryGetValue(chick.Code, out var each))
                    continue;
                forecasts++;
                inside += (double)each.Weight.Grams >= each.LowGrams && (double)each.Weight.Grams <= each.HighGrams ? 1 : 0;
                widths.Add((each.HighGrams - each.LowGrams) / each.ExpectedGrams);
            }
        }
    }
}
