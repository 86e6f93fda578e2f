using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Rejudging;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Commands;

/// <summary>What <c>rejudge</c> says: a table of what changes, what could not be judged, a line that sums up.</summary>
internal static class RejudgeReport
{
    public static string Text(IReadOnlyList<Finding> findings, bool applied, string timeZone)
    {
        var text = new StringBuilder();
        var zone = TimeZoneInfo.FindSystemTimeZoneById(timeZone);
        var changes = findings.Where(finding => finding.Kind == FindingKind.Changes).ToList();
        if (changes.Count > 0)
            text.Append(Changes(changes, zone));
        foreach (var finding in findings.Where(finding => finding.Kind is FindingKind.Undecided or FindingKind.Unreadable))
            text.Append(CultureInfo.InvariantCulture, $"{Moment(finding.Was, zone)} {finding.Was.Chick} is left as it is: {finding.Why}.\n");
        return text.Append(Summary(findings, changes.Count, applied)).Append('\n').ToString();
    }

    private static string Changes(List<Finding> changes, TimeZoneInfo zone)
    {
        var table = new TextTable("when", "chick", "", ">grams", ">u", "verdict", "reasons");
        foreach (var (_, was, now, _) in changes)
        {
            table.Add(Moment(was, zone), was.Chick, "was", Shown.Grams(was.Milligrams), Shown.Uncertainty(was.UncertaintyMilligrams), Words(was.Verdict), string.Join(", ", was.Reasons));
            table.Add("", "", "now", Shown.Grams(now!.Milligrams), Shown.Uncertainty(now.UncertaintyMilligrams), Words(now.Verdict), string.Join(", ", now.Reasons));
        }

        return table.ToString();
    }

    private static string Summary(IReadOnlyList<Finding> findings, int changes, bool applied)
    {
        var judged = Count(FindingKind.Same) + changes;
        var left = string.Concat(
            Part(Count(FindingKind.Undecided), "not certain from their readings"), Part(Count(FindingKind.NoEvidence), "without readings"), Part(Count(FindingKind.Unreadable), "with readings that cannot be read"));
        var what = (changes, applied) switch
        {
            (0, _) => "nothing changes",
            (_, true) => $"{changes} changed; the old rows stay (`export weights --all` shows them)",
            _ => $"{changes} would change; nothing was written (--apply writes new rows)",
        };
        return $"{judged} weighings judged again{left}: {what}.";

        int Count(FindingKind kind) => findings.Count(finding => finding.Kind == kind);
        static string Part(int count, string what) => count == 0 ? "" : $", {count} {what}";
    }

    private static string Words(Verdict verdict) => verdict == Verdict.Accepted ? "accepted" : "rejected";

    private static string Moment(WeighingRow row, TimeZoneInfo zone) =>
        TimeZoneInfo.ConvertTime(row.At!.Value, zone).ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);
}
