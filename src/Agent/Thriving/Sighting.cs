using CaptureAgent.Store;

namespace CaptureAgent.Agent.Thriving;

/// <summary>What a keeper saw of a chick: by a card of observation, or its crop full when it should have been empty.</summary>
/// <param name="Day">The nursery day.</param>
/// <param name="Kind">One of <see cref="ObservationKinds"/>.</param>
internal sealed record Sighting(string Chick, DateTimeOffset At, DateOnly Day, string Kind)
{
    /// <summary>As a keeper reads it.</summary>
    public string Words => ObservationKinds.Words(Kind);

    /// <summary>Those that were not taken back, oldest first.</summary>
    public static IReadOnlyList<Sighting> Read(CaptureStore store, string? chick = null, DateOnly? from = null, DateOnly? to = null) =>
    [
        .. store.Observations(chick, from, to).Select(row => new Sighting(row.Chick, row.At, row.Day, row.Kind))
            .Concat(store.CropMarks(chick, from, to).Select(mark => new Sighting(mark.Chick, mark.At, mark.Day, ObservationKinds.CropFull)))
            .OrderBy(seen => seen.At),
    ];
}
