using CaptureAgent.Agent.Feeding;
using CaptureAgent.Agent.Page.Live;
using CaptureAgent.Agent.Thriving;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Page.Api;

/// <summary>Makes the view of a round from the record: who is done, refused, still to do. Pure.</summary>
internal static class RoundOfDay
{
    /// <summary>How far back a weight still is "the one before".</summary>
    public const int DaysBack = 30;

    /// <param name="weighings">That stand, of the day and the days before; in the order of day, time and arrival.</param>
    /// <param name="findings">Of the day.</param>
    /// <param name="feeds">Oldest first; of today and the days before.</param>
    /// <param name="observations">Oldest first; those that say a chick is being weaned tell which are not due any more.</param>
    /// <param name="plan">Says when the next is due.</param>
    public static RoundView Of(
        DateOnly day, IReadOnlyList<Chick> chicks, IReadOnlyList<WeighingRow> weighings, IReadOnlyList<FindingSituation> findings, IReadOnlyList<FeedRow> feeds,
        IReadOnlyList<ObservationRow> observations, FeedPlan plan, DateTimeOffset now)
    {
        var weaning = observations.Where(seen => seen.Kind == ObservationKinds.Weaning).ToLookup(seen => seen.Chick, StringComparer.Ordinal);
        var fed = feeds.ToLookup(feed => feed.Chick, StringComparer.Ordinal);
        var ofChick = weighings.Where(row => row.Chick is not null && row.Day <= day).ToLookup(row => row.Chick!, StringComparer.Ordinal);
        var rows = chicks.Where(chick => !(chick.Left <= day) && !(chick.Hatched > day))
            .Select(chick => Row(day, chick, [.. ofChick[chick.Code]], findings, fed[chick.Code].LastOrDefault(), After)).ToList();
        var known = chicks.Select(chick => chick.Code).ToHashSet(StringComparer.Ordinal);
        return new(
            day, rows.Count(row => row.State == "done"), rows.Count(row => row.State == "refused"), rows.Count(row => row.State == "to-do"),
            rows.Count(row => row.Red is not null),
            weighings.Count(row => row.Day == day && row.Verdict == Verdict.Rejected && (row.Chick is null || !known.Contains(row.Chick))), rows);

        DateTimeOffset? After(Chick chick, DateTimeOffset lastFeed, int? age) =>
            plan.IsWeaned(chick.Code, weaning[chick.Code].LastOrDefault()?.At, lastFeed, now) ? null : plan.DueAfter(lastFeed, chick, age);
    }

    private static RoundRow Row(
        DateOnly day, Chick chick, List<WeighingRow> rows, IReadOnlyList<FindingSituation> findings, FeedRow? fed, Func<Chick, DateTimeOffset, int?, DateTimeOffset?> due)
    {
        var age = day.DayNumber - chick.Hatched?.DayNumber;
        var today = rows.LastOrDefault(row => row.Day == day && row.Verdict == Verdict.Accepted);
        var before = rows.LastOrDefault(row => row.Day < day && row.Verdict == Verdict.Accepted);
        var refused = today is null ? rows.LastOrDefault(row => row.Day == day) : null;
        var shown = today ?? refused;
        var gain = today?.Milligrams - before?.Milligrams;
        return new(
            chick.Code, chick.Species, chick.Brooder, chick.Clutch, age,
            today is not null ? "done" : refused is not null ? "refused" : "to-do",
            Gram.Of(shown?.Milligrams), Gram.Of(shown?.UncertaintyMilligrams), Gram.Of(gain),
            gain is { } milligrams && before!.Milligrams is > 0 and var first ? decimal.Round(100m * milligrams / first, 1) : null,
            shown?.At, refused?.Reasons ?? [], Gram.Of(before?.Milligrams), before?.Day,
            findings.LastOrDefault(finding => finding.Chick == chick.Code && finding.Severity == "red"),
            fed?.At, fed is null ? null : due(chick, fed.At, age));
    }
}
