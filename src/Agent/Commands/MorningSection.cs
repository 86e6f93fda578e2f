using CaptureAgent.Agent.Thriving;

namespace CaptureAgent.Agent.Commands;

/// <summary>What a keeper reads of a morning before the table of all chicks; the same on a terminal and as a page.</summary>
/// <param name="Severity">One of <see cref="Severities"/>; null where the lines are no findings.</param>
internal sealed record MorningSection(string Title, string? Severity, IReadOnlyList<MorningLine> Lines)
{
    /// <summary>Ends the summary.</summary>
    public const string Caution = "Weights are compared, nothing is diagnosed: a chick that looks ill is ill whatever it weighs.";

    /// <summary>Those that have lines: reds, looks, who is not weighed yet, notes, and what the register does not know or has wrong.</summary>
    public static IReadOnlyList<MorningSection> Of(MorningSummary summary) =>
    [
        .. new MorningSection[]
        {
            Found(summary, Severities.Red, "RED: today, before the next feed"),
            Found(summary, Severities.Look, "Look: today"),
            new("Not weighed yet", null, summary.NotWeighed.Count == 0 ? [] : [new(null, string.Join(", ", summary.NotWeighed))]),
            Found(summary, Severities.Note, "Notes"),
            new("Seen of chicks that are not in the room: check the code, or the register", null, [.. summary.SeenElsewhere().Select(code => new MorningLine(null, $"{code}: {Seen(summary, code)}"))]),
            new("In the register, to be set right", null, [.. summary.Doubts.Select(doubt => new MorningLine(null, doubt.Text))]),
        }.Where(section => section.Lines.Count > 0),
    ];

    /// <summary>What was seen of a chick, in words.</summary>
    public static string Seen(MorningSummary summary, string chick) => string.Join(", ", summary.SeenOf(chick).Select(ObservationKinds.Words));

    // Who is not weighed has a section: no note beside it.
    private static MorningSection Found(MorningSummary summary, string severity, string title) => new(
        title, severity,
        [
            .. UsualNotes.Fold([.. summary.Findings.Where(finding => finding.Severity == severity && !(severity == Severities.Note && finding.Kind == FindingKinds.NotWeighed))])
                .Select(finding => new MorningLine(finding.Kind, finding.Text)),
        ]);
}

/// <param name="Kind">One of <see cref="FindingKinds"/>; null where it is no finding.</param>
internal readonly record struct MorningLine(string? Kind, string Text);
