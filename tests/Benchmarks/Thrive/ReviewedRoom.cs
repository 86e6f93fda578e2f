using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Thriving;
using CaptureAgent.Simulators.Rooms;

namespace CaptureAgent.Benchmarks.Thrive;

/// <summary>A simulated room as the agent reviews it.</summary>
internal sealed class ReviewedRoom
{
    private static readonly DateOnly First = new(2026, 1, 1);

    private readonly Dictionary<(string? Chick, int Day), List<GrowthFinding>> findings = [];

    public ReviewedRoom(Room room, Tuning? tuning = null)
    {
        Room = room;
        var review = RoomReview.Of([.. room.Chicks.Select(Watched)], PublishedGrowth.Instance, First.AddDays(room.Days - 1), tuning ?? Tuning.Usual, morning =>
        {
            var day = morning.Day.DayNumber - First.DayNumber;
            Mornings.Add(morning.Judged.ToDictionary(each => each.Watch.Chick.Code));
            foreach (var finding in Findings.Of(morning))
            {
                if (!findings.TryGetValue((finding.Chick, day), out var list))
                    findings[(finding.Chick, day)] = list = [];
                list.Add(finding);
            }
        });
        FirstDay = room.Days - Mornings.Count;
        Noise = review.Noise;
    }

    public Room Room { get; }

    /// <summary>By morning, from <see cref="FirstDay"/> on.</summary>
    public List<Dictionary<string, ChickMorning>> Mornings { get; } = [];

    public int FirstDay { get; }

    public NoiseLevel Noise { get; }

    /// <param name="chick">Null: the room.</param>
    public IReadOnlyList<GrowthFinding> Of(string? chick, int day) => findings.GetValueOrDefault((chick, day)) ?? [];

    private static WatchedChick Watched(RoomChick chick)
    {
        List<MorningWeight> weights = [];
        for (var day = 0; day < chick.Weights.Length; day++)
        {
            if (chick.Weights[day] > 0)
                weights.Add(new MorningWeight(First.AddDays(day), (decimal)chick.Weights[day], null, 1));
        }

        return new WatchedChick(
            chick.Code, chick.Species.Name.Length == 0 ? null : chick.Species.Name, chick.TellsHatchDate ? First.AddDays(chick.HatchDay) : null, chick.Clutch, null, weights);
    }
}
