namespace CaptureAgent.Agent.Thriving;

/// <summary>Notes of what is in order for chicks at their stage: a room has many of them each morning, and among them the few that ask for more are overlooked.</summary>
internal static class UsualNotes
{
    /// <summary>Findings for a reader: those of one kind that are usual become one, behind all others.</summary>
    public static IReadOnlyList<GrowthFinding> Fold(IReadOnlyCollection<GrowthFinding> findings) =>
    [
        .. findings.Where(finding => !finding.IsUsual),
        .. findings.Where(finding => finding.IsUsual).GroupBy(finding => finding.Kind).Select(InOne),
    ];

    private static GrowthFinding InOne(IGrouping<string, GrowthFinding> same) => same.ToList() is [var first, _, ..] many
        ? new GrowthFinding(null, first.Day, first.Kind, first.Severity, Sentences.Usual(first.Kind, [.. many.Select(finding => finding.Chick!)])) { IsUsual = true }
        : same.First();
}
