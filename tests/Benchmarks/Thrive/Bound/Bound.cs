using CaptureAgent.Simulators.Physics;
using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive.Bound;

/// <summary>What is left to find by one who knows each chick's course, the noise, its correlation and what will go wrong, and who has one test only, which spends the whole budget on the chicks that it could befall.</summary>
internal sealed class Bound
{
    private const double Budget = 0.01;

    private const int From = 30;

    /// <summary>By chick that it befell: the morning on which it is told.</summary>
    public List<int> Mornings { get; } = [];

    public static Bound Of(Disturbance disturbance, RoomConditions conditions, int rooms, ulong calmSeed, ulong seed)
    {
        conditions = disturbance.In(conditions);
        List<double> calm = [];
        var allowed = 0.0;
        for (var i = 0; i < rooms; i++)
        {
            var room = new Room(conditions, calmSeed + (ulong)i);
            room.Weigh();
            var known = new KnownRoom(conditions, room, calmSeed + (ulong)i);
            for (var day = From; day < room.Days; day++)
            {
                calm.AddRange(disturbance.IsOfRoom ? [disturbance.Score(known, null, day)] : Possible(disturbance, room, day).Select(chick => disturbance.Score(known, chick, day)));
                allowed += Budget * (disturbance.IsOfRoom ? 1 : room.Chicks.Count(chick => chick.Weights[day] > 0));
            }
        }

        calm.Sort();
        var threshold = calm[Math.Max(calm.Count - 1 - (int)allowed, 0)];
        var bound = new Bound();
        for (var i = 0; i < rooms; i++)
            bound.Add(disturbance, conditions, seed + (ulong)i, threshold);
        return bound;
    }

    private void Add(Disturbance disturbance, RoomConditions conditions, ulong seed, double threshold)
    {
        var room = new Room(conditions, seed);
        var (first, befallen) = disturbance.Play(room, new SeededRandom(seed + 5000));
        var known = new KnownRoom(conditions, room, seed);
        foreach (var chick in befallen)
        {
            var day = first;
            while (day < room.Days && !((chick is null || chick.Weights[day] > 0) && disturbance.Score(known, chick, day) > threshold))
                day++;
            Mornings.Add(day < room.Days ? day - first + 1 : Detection.Never);
        }
    }

    private static IEnumerable<RoomChick> Possible(Disturbance disturbance, Room room, int day) =>
        room.Chicks.Where(chick => chick.Weights[day] > 0 && disturbance.CanBefall(chick, day));
}
