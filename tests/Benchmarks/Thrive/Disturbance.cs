using System.Globalization;
using CaptureAgent.Agent.Thriving;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive;

/// <summary>Something that goes wrong in a simulated room from one morning on, or on one morning.</summary>
/// <param name="Name">For the table.</param>
/// <param name="Kinds">Findings that tell it.</param>
/// <param name="LeastGain">Of the chicks it befalls, the true daily gain of ln(weight) it should have.</param>
/// <param name="Start">Mornings before the last on which it begins.</param>
/// <param name="Befall">Puts it into the room, before or after the weighing; returns the chicks, null standing for the room.</param>
internal sealed record Disturbance(
    string Name, string[] Kinds, double LeastGain, double MostGain, int Start, Func<Room, int, IReadOnlyList<RoomChick>, SeededRandom, IReadOnlyList<RoomChick?>> Befall)
{
    private const int Each = 10;

    private static readonly string[] Falling =
        [FindingKinds.Loss, FindingKinds.Stall, FindingKinds.Slow, FindingKinds.Crossing, FindingKinds.BehindClutch, FindingKinds.WeaningLoss];

    public static IReadOnlyList<Disturbance> All { get; } =
    [
        Growth("growth halves, should gain 6 % or more", 0.06, 1, (gain, _) => gain / 2),
        Growth("growth halves, should gain 3 to 6 %", 0.03, 0.06, (gain, _) => gain / 2),
        Growth("growth halves, should gain 1.5 to 3 %", 0.015, 0.03, (gain, _) => gain / 2),
        Growth("growth stops, should gain 3 % or more", 0.03, 1, (_, _) => 0),
        Growth("growth stops, should gain 1.5 to 3 %", 0.015, 0.03, (_, _) => 0),
        Growth("loses 2 to 4 % a day, should gain 3 % or more", 0.03, 1, (_, random) => -random.Between(0.02, 0.04)),
        Growth("loses 2 to 4 % a day, should gain 1.5 to 3 %", 0.015, 0.03, (_, random) => -random.Between(0.02, 0.04)),
        new("mates exchanged, 10 % apart or more", [FindingKinds.Swapped], 0, 1, 1, Exchange),
        new("two digits exchanged, 10 % off or more", [FindingKinds.Implausible], 0, 1, 1, Digits),
        new("crop not empty, 4 to 10 % heavier", [FindingKinds.TooGood], 0.01, 1, 1, (_, day, chicks, random) =>
            Weigh(chicks, chick => chick.Weights[day] = Math.Round(chick.Weights[day] * (1 + random.Between(0.04, 0.10)), 1))),
        new("room shifted by 2 %", [FindingKinds.RoomShift], 0, 1, 1, (room, day, _, random) =>
        {
            var factor = random.Chance(0.5) ? 1.02 : 0.98;
            foreach (var chick in room.Chicks)
                chick.Weights[day] = Math.Round(chick.Weights[day] * factor, 1);
            return [null];
        }),
    ];

    /// <summary>Those it may befall: past the first days, before the peak, and weighed on the morning.</summary>
    public IReadOnlyList<RoomChick> Candidates(Room room, int day) =>
        [.. room.Chicks.Where(chick => day - chick.HatchDay >= 6 && day < chick.PeakDay && chick.Gain(day) >= LeastGain && chick.Gain(day) < MostGain && (chick.Weights[day] > 0 || Start > 1)).Take(Each)];

    private static Disturbance Growth(string name, double least, double most, Func<double, SeededRandom, double> gain) => new(name, Falling, least, most, 8, (room, day, chicks, random) =>
    {
        foreach (var chick in chicks)
        {
            var own = random.Fork();
            chick.Change(day, room.Days, healthy => gain(healthy, own));
        }

        return chicks;
    });

    private static IReadOnlyList<RoomChick?> Weigh(IReadOnlyList<RoomChick> chicks, Action<RoomChick> change)
    {
        foreach (var chick in chicks)
            change(chick);
        return chicks;
    }

    private static List<RoomChick?> Exchange(Room room, int day, IReadOnlyList<RoomChick> chicks, SeededRandom random)
    {
        List<RoomChick?> exchanged = [];
        foreach (var nest in room.Chicks.Where(chick => chick.Weights[day] > 0 && day - chick.HatchDay >= 6).GroupBy(chick => chick.Clutch))
        {
            if (exchanged.Count >= Each || nest.Take(2).ToList() is not [var a, var b] || Math.Abs(Math.Log(a.Weights[day] / b.Weights[day])) < Math.Log(1.1))
                continue;
            (a.Weights[day], b.Weights[day]) = (b.Weights[day], a.Weights[day]);
            exchanged.AddRange([a, b]);
        }

        return exchanged;
    }

    private static List<RoomChick?> Digits(Room room, int day, IReadOnlyList<RoomChick> chicks, SeededRandom random)
    {
        List<RoomChick?> mistaken = [];
        foreach (var chick in chicks)
        {
            var text = chick.Weights[day].ToString("F1", CultureInfo.InvariantCulture).ToCharArray();
            var i = (int)(random.Unit() * (text.Length - 3));
            (text[i], text[i + 1]) = (text[i + 1], text[i]);
            if (text[i + 1] == '.' || text[i] == '.' || double.Parse(text, CultureInfo.InvariantCulture) is not (> 0 and var other))
                continue;
            if (Math.Abs(Math.Log(other / chick.Weights[day])) < Math.Log(1.1))
                continue;
            chick.Weights[day] = other;
            mistaken.Add(chick);
        }

        return mistaken;
    }
}
