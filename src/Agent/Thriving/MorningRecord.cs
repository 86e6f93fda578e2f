using CaptureAgent.Store;

namespace CaptureAgent.Agent.Thriving;

/// <summary>What the store has for a morning's summary.</summary>
/// <param name="Seen">What keepers saw that day and the day before, oldest first.</param>
internal sealed record MorningRecord(DateOnly Day, RoomRecord Room, IReadOnlyList<Sighting> Seen)
{
    public static MorningRecord Read(CaptureStore store, DateOnly day) => new(day, RoomRecord.Read(store, day), Sighting.Read(store, from: day.AddDays(-1), to: day));
}
