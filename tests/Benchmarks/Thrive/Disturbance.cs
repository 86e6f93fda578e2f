using CaptureAgent.Agent.Thriving;
using CaptureAgent.Benchmarks.Thrive.Bound;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive;

/// <summary>Something that goes wrong in a simulated room from one morning on, or on one morning.</summary>
/// <param name="Name">For the table.</param>
/// <param name="Kinds">Findings that tell it.</param>
/// <param name="LeastGain">Of the chicks it befalls, the true daily gain of ln(weight) it should have.</param>
/// <param name="Start">Mornings before the last on which it begins.</param>
/// <param name="Befall">Puts it into the room, before or after the weighing; returns the chicks, null standing for the room.</param>
/// <param name="Score">Log likelihood ratio of it for one who knows the chicks; the chick is null where it befalls the room.</param>
internal sealed record Disturbance(
    string Name, string[] Kinds, double LeastGain, double MostGain, int Start,
    Func<Room, int, IReadOnlyList<RoomChick>, SeededRandom, IReadOnlyList<RoomChick?>> Befall, Func<KnownRoom, RoomChick?, int, double> Score)
{
    /// <summary>Nothing befalls a younger chick; nor its growth where the gain of ln(weight) a day is less, nor its crop.</summary>
    public const double YoungestDays = 6, SmallestGain = 0.015, CropGain = 0.01;

    private const int Each = 10;

    private static readonly string[] Falling =
        [FindingKinds.Loss, FindingKinds.Stall, FindingKinds.Slow, FindingKinds.Crossing, FindingKinds.BehindClutch, FindingKinds.WeaningLoss];

    public static IReadOnlyList<Disturbance> All { get; } =
    [
        Growth("growth halves, should gain 6 % or more", 0.06, 1, (gain, _) => gain / 2, (gain, _) => -gain / 2),
        Growth("growth halves, should gain 3 to 6 %", 0.03, 0.06, (gain, _) => gain / 2, (gain, _) => -gain / 2),
        Growth("growth halves, should gain 1.5 to 3 %", SmallestGain, 0.03, (gain, _) => gain / 2, (gain, _) => -gain / 2),
        Growth("growth stops, should gain 3 % or more", 0.03, 1, (_, _) => 0, (gain, _) => -gain),
        Growth("growth stops, should gain 1.5 to 3 %", SmallestGain, 0.03, (_, _) => 0, (gain, _) => -gain),
        Growth("loses 2 to 4 % a day, should gain 3 % or more", 0.03, 1, (_, random) => -random.Between(0.02, 0.04), (gain, days) => -gain - 0.03 * days),
        Growth("loses 2 to 4 % a day, should gain 1.5 to 3 %", SmallestGain, 0.03, (_, random) => -random.Between(0.02, 0.04), (gain, days) => -gain - 0.03 * days),
        Growth("growth halves for two weeks, should gain 3 to 6 %, 300 chicks: told as falling through centiles", 0.03, 0.06, (gain, _) => gain / 2, (gain, _) => -gain / 2, 14, [FindingKinds.Crossing]) with { Chicks = 300 },
        new("mates exchanged, 10 % apart or more", [FindingKinds.Swapped], -1, 1, 1, Slips.ExchangeMates, Slips.ScoreOfExchange),
        new("two digits exchanged, 10 % off or more", [FindingKinds.Implausible], 0, 1, 1, Slips.ExchangeDigits, Slips.ScoreOfDigits),
        new("crop not empty, 4 to 10 % heavier", [FindingKinds.TooGood], CropGain, 1, 1, Slips.FillCrop, (room, chick, day) => room.Of(chick!).Z(day)),
        new("room shifted by 2 %", [FindingKinds.RoomShift], 0, 1, 1, Slips.ShiftRoom, (room, _, day) => Math.Abs(room.RoomZ(day))) { IsOfRoom = true },
    ];

    /// <summary>In a room of so many chicks; null: as others.</summary>
    public int? Chicks { get; private init; }

    /// <summary>It befalls all chicks at once.</summary>
    public bool IsOfRoom { get; private init; }

    /// <summary>One of those that <see cref="JointBound"/> looks for at once: of growth, or the crop.</summary>
    public bool IsInJointBound => Kinds == Falling || Kinds.Contains(FindingKinds.TooGood);

    public RoomConditions In(RoomConditions conditions) => conditions with { Chicks = Chicks ?? conditions.Chicks };

    /// <summary>Whether it may befall the chick on a day: past the first days, before the peak.</summary>
    public bool CanBefall(RoomChick chick, int day) =>
        day - chick.HatchDay >= YoungestDays && (LeastGain < 0 || day < chick.PeakDay && chick.Gain(day) >= LeastGain && chick.Gain(day) < MostGain);

    /// <summary>Weighs the room and lets it go wrong.</summary>
    /// <returns>The first day on which it can show, and whom it befell.</returns>
    public (int First, IReadOnlyList<RoomChick?> Befallen) Play(Room room, SeededRandom random)
    {
        var first = room.Days - Start;
        if (Start == 1)
            room.Weigh();
        var candidates = room.Chicks.Where(chick => CanBefall(chick, first) && (chick.Weights[first] > 0 || Start > 1)).Take(Each);
        var befallen = Befall(room, first, [.. candidates], random);
        if (Start > 1)
            room.Weigh();
        return (first, befallen);
    }

    /// <param name="gain">The gain of a day, of the healthy one.</param>
    /// <param name="departure">What is missing of ln(weight), by the healthy gain since the beginning and the days since.</param>
    private static Disturbance Growth(string name, double least, double most, Func<double, SeededRandom, double> gain, Func<double, int, double> departure,
        int start = 8, string[]? kinds = null) => new(name, kinds ?? Falling, least, most, start, (room, day, chicks, random) =>
    {
        foreach (var chick in chicks)
        {
            var own = random.Fork();
            chick.Change(day, room.Days, healthy => gain(healthy, own));
        }

        return chicks;
    }, (room, chick, day) => room.Of(chick!).Departed(day, departure));
}
