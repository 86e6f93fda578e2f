using CaptureAgent.Agent.Thriving;
using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive;

/// <summary>On which morning a disturbance is told: the first is the first weight that shows it.</summary>
internal sealed class Detection
{
    public const int Never = 99;

    public List<int> Agent { get; } = [];

    /// <summary>Notes counted too.</summary>
    public List<int> WithNotes { get; } = [];

    public List<int> AnyLoss { get; } = [];

    public List<int> LittleGain { get; } = [];

    /// <summary>Chick-mornings with a look or a red on the morning of a shift, and of all.</summary>
    public (int Blamed, int All) Shifted { get; private set; }

    /// <summary>The same on the same mornings without the shift.</summary>
    public int BlamedElse { get; private set; }

    public static Detection Of(Disturbance disturbance, RoomConditions conditions, int rooms, ulong seed)
    {
        var detection = new Detection();
        conditions = disturbance.In(conditions);
        var played = Enumerable.Range(0, rooms).AsParallel().AsOrdered().Select(i =>
        {
            var room = new Room(conditions, seed + (ulong)i);
            var (first, befallen) = disturbance.Play(room, new SeededRandom(seed + 5000 + (ulong)i));
            var blamedElse = 0;
            if (disturbance.IsOfRoom)
            {
                var calm = new Room(conditions, seed + (ulong)i);
                calm.Weigh();
                blamedElse = Blamed(new ReviewedRoom(calm), calm.Days - disturbance.Start);
            }

            return (Reviewed: new ReviewedRoom(room), First: first, Befallen: befallen, BlamedElse: blamedElse);
        });
        foreach (var each in played)
        {
            detection.Add(disturbance, each.Reviewed, each.First, each.Befallen);
            detection.BlamedElse += each.BlamedElse;
        }

        return detection;
    }

    public static double Share(List<int> mornings, int within) => 100.0 * mornings.Count(morning => morning <= within) / Math.Max(mornings.Count, 1);

    public static int Median(List<int> mornings) => mornings.Count == 0 ? Never : mornings.Order().ElementAt((mornings.Count - 1) / 2);

    private static int Blamed(ReviewedRoom reviewed, int day) =>
        reviewed.Room.Chicks.Count(each => reviewed.Of(each.Code, day).Any(finding => finding.Severity != Severities.Note));

    private void Add(Disturbance disturbance, ReviewedRoom reviewed, int first, IReadOnlyList<RoomChick?> befallen)
    {
        foreach (var chick in befallen)
        {
            Agent.Add(First(day => reviewed.Of(chick?.Code, day).Any(finding => disturbance.Kinds.Contains(finding.Kind) && finding.Severity != Severities.Note)));
            WithNotes.Add(First(day => reviewed.Of(chick?.Code, day).Any(finding => disturbance.Kinds.Contains(finding.Kind))));
            if (chick is null)
            {
                Shifted = (Shifted.Blamed + Blamed(reviewed, first), Shifted.All + reviewed.Room.Chicks.Count);
                continue;
            }

            AnyLoss.Add(First(day => Baselines.AnyLoss(chick, day)));
            LittleGain.Add(First(day => Baselines.LittleGain(chick, day)));
        }

        int First(Func<int, bool> told)
        {
            for (var day = first; day < reviewed.Room.Days; day++)
            {
                if (told(day))
                    return day - first + 1;
            }

            return Never;
        }
    }
}
