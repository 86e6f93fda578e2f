using CaptureAgent.Agent.Round;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Rejudging;

/// <summary>Goes through the record as it grew, so that each weighing is judged with what was known before it.</summary>
/// <remarks>
/// Weighings in the order of arrival; feeds, undos and crops seen full by their moment. A weighing that was judged again stands, in this walk, where it was
/// weighed and not where the later row came: what an earlier mistake did to later verdicts is mended with it, and a second run finds nothing.
/// The register is today's.
/// </remarks>
internal sealed class RecordWalk
{
    private readonly RecordHistory history;
    private readonly Ledger ledger;
    private readonly Dictionary<Guid, StoredWeighing> judgedAgain = [];
    private readonly Dictionary<Guid, Guid> firstOf = [];
    private readonly Dictionary<Guid, string> chickOf = [];
    private readonly Dictionary<Guid, Note> markOf = [];
    private int feeds, undos, marks;

    public RecordWalk(RecordHistory history, Ledger empty)
    {
        this.history = history;
        ledger = empty;
        foreach (var stored in history.Weighings)
        {
            if (stored.Row is { Origin: Origin.Rejudged, Replaces: { } before })
            {
                judgedAgain[before] = stored;
                firstOf[stored.Row.Id] = before;
            }

            if (stored.Row.Chick is { } chick)
                chickOf[stored.Row.Id] = chick;
        }

        foreach (var feed in history.Feeds)
            chickOf[feed.Id] = feed.Chick;
        foreach (var mark in history.CropMarks)
            markOf[mark.Id] = new Note(mark.Id, Notes.Crop, mark.Chick, "", mark.Day, mark.At);
    }

    /// <param name="judge">Gives a finding for those that are to be judged (the row that stands, the row of the day), null for the others.</param>
    public IEnumerable<Finding> Judge(Func<StoredWeighing, WeighingRow, Finding?> judge)
    {
        foreach (var stored in history.Weighings)
        {
            if (stored.Row.Origin == Origin.Rejudged)
                continue;
            if (stored.Row.At is { } at)
                Pass(at);
            var standing = Standing(stored);
            var finding = judge(standing, stored.Row);
            Learn(stored.Row.Id, finding?.Now ?? standing.Row);
            if (finding is not null)
                yield return finding;
        }
    }

    private StoredWeighing Standing(StoredWeighing stored)
    {
        while (judgedAgain.TryGetValue(stored.Row.Id, out var later))
            stored = later;
        return stored;
    }

    private void Learn(Guid id, WeighingRow row)
    {
        if (row is { Verdict: Verdict.Accepted, Chick: { } code, Milligrams: { } milligrams })
            ledger.Add(code, new Weight(id, row.Day, row.At, milligrams / 1000m, row.UncertaintyMilligrams / 1000m, row.Written?.Grams));
    }

    private void Pass(DateTimeOffset at)
    {
        for (; marks < history.CropMarks.Count && history.CropMarks[marks].At <= at; marks++)
            ledger.Add(markOf[history.CropMarks[marks].Id]);
        for (; feeds < history.Feeds.Count && history.Feeds[feeds].At <= at; feeds++)
            ledger.Add(history.Feeds[feeds].Chick, new Feed(history.Feeds[feeds].Id, history.Feeds[feeds].Day, history.Feeds[feeds].At));
        for (; undos < history.Undos.Count && history.Undos[undos].At <= at; undos++)
        {
            if (markOf.TryGetValue(history.Undos[undos].Undone, out var mark))
                ledger.Remove(mark);
            else if (chickOf.TryGetValue(history.Undos[undos].Undone, out var chick))
                ledger.Remove(chick, First(history.Undos[undos].Undone));
        }
    }

    // A weight stands in the ledger under the id of the day's row.
    private Guid First(Guid id)
    {
        while (firstOf.TryGetValue(id, out var before))
            id = before;
        return id;
    }
}
