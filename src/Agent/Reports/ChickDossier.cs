using CaptureAgent.Agent.Growth;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Reports;

/// <summary>All that the record has of one chick, for a hand-over.</summary>
/// <param name="Versions">What was registered of it, oldest first.</param>
/// <param name="Weighings">Every attempt, whatever became of it.</param>
/// <param name="Feeds">Those that stand.</param>
/// <param name="Zone">In which moments are shown.</param>
internal sealed record ChickDossier(
    string Code, DateOnly Today, IReadOnlyList<ChickVersion> Versions, IReadOnlyList<StoredWeighing> Weighings, IReadOnlyList<FeedRow> Feeds,
    GrowthView Growth, TimeZoneInfo Zone, string Station)
{
    public Chick? Chick => Versions.Count > 0 ? Versions[^1].Chick : null;

    public static ChickDossier Read(CaptureStore store, string code, DateOnly today, TimeZoneInfo zone, string station)
    {
        var versions = store.ChickVersions(code);
        var weighings = store.AllWeighings(code);
        return new ChickDossier(
            code, today, versions, weighings, Fed(store, code, versions, weighings), NurseryGrowth.Read(store).View(code), zone, station);
    }

    // No feed comes before the hatch date or the first weighing, a week's doubt about either allowed.
    private static List<FeedRow> Fed(CaptureStore store, string code, IReadOnlyList<ChickVersion> versions, IReadOnlyList<StoredWeighing> weighings)
    {
        DateOnly?[] days = [.. versions.Select(version => version.Chick.Hatched), weighings.Count > 0 ? weighings[0].Row.Day : null];
        var first = days.Min() is { } day ? new DateTimeOffset(day.AddDays(-7), TimeOnly.MinValue, TimeSpan.Zero) : DateTimeOffset.UnixEpoch;
        return [.. store.Feeds(first).Where(feed => feed.Chick == code)];
    }
}
