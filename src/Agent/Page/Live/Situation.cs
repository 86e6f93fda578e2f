namespace CaptureAgent.Agent.Page.Live;

/// <summary>What the page shows of this moment. What is not known is null.</summary>
/// <param name="Version">Rises with every change; a page that has it need not draw again.</param>
/// <param name="Record">Rises whenever the store has something new: what was read from it before is old.</param>
internal sealed record Situation(
    string Station, string Run, long Version, long Record, DateTimeOffset At, DateOnly Day, PanSituation Pan, BatchSituation? Batch,
    IReadOnlyList<DeviceSituation> Devices, IReadOnlyList<AlertSituation> Alerts, IReadOnlyList<FindingSituation> Findings, IReadOnlyList<DueSituation> Dues);

/// <summary>What goes on at the pan.</summary>
/// <param name="Step">One of the words of <see cref="PanStep"/>.</param>
/// <param name="Grams">The last weight; it stands until the next chick.</param>
/// <param name="GainGrams">Above (or below) the morning weight before.</param>
/// <param name="Text">The agent's own words, where it has any.</param>
/// <param name="IntakeGrams">What this chick took at its feed, by weighing before and after it.</param>
internal sealed record PanSituation(
    string Step, DateTimeOffset? At = null, string? Chick = null, decimal? Grams = null, decimal? UncertaintyGrams = null, decimal? GainGrams = null,
    int? AgeDays = null, IReadOnlyList<string>? Reasons = null, string? Text = null, decimal? TareGrams = null, DateTimeOffset? StoredAt = null,
    decimal? IntakeGrams = null);

/// <summary>Where a weighing stands, in the order of a weighing.</summary>
internal static class PanStep
{
    /// <summary>Nothing was weighed yet: a liner should be laid on the pan.</summary>
    public const string Start = "start";

    /// <summary>The liner is known: scan a chick.</summary>
    public const string Tared = "tared";

    /// <summary>A code was heard: lay the chick down.</summary>
    public const string Scanned = "scanned";

    /// <summary>Something lies on the pan and is being weighed: hands off.</summary>
    public const string Weighing = "weighing";

    public const string Accepted = "accepted";

    public const string Refused = "refused";

    /// <summary>A code that could not be used.</summary>
    public const string Misread = "misread";

    /// <summary>A command card was heard.</summary>
    public const string Card = "card";

    public const string Fed = "fed";

    public const string TakenBack = "taken-back";

    /// <summary>What was seen of a chick, or a chore, is written down; the text is its kind.</summary>
    public const string Noted = "noted";

    /// <summary>A scale or a probe was checked: the text is good or off.</summary>
    public const string Checked = "checked";

    /// <summary>Decided, but not on disk yet.</summary>
    public const string NotStored = "not-stored";

    /// <summary>Decided, and there is no room to keep it: somebody must write it down.</summary>
    public const string Lost = "lost";
}

/// <summary>The batch of formula, and what the probe says in it.</summary>
/// <param name="Settled">False while the probe still moves: the temperature is a prediction.</param>
internal sealed record BatchSituation(
    int? Batch, string State, decimal? Celsius, decimal? UncertaintyCelsius, bool Settled, DateTimeOffset At, DateTimeOffset? DiscardAt, DateTimeOffset? BelowBandAt);

/// <param name="State">up, down or silent; unknown before the first word.</param>
internal sealed record DeviceSituation(string Device, string Role, string State, DateTimeOffset? Since, string? Detail, string? Cause = null);

/// <param name="Text">In English; a page of another language has words of its own for each kind of alert.</param>
internal sealed record AlertSituation(long Id, DateTimeOffset At, string Alert, string? Chick, string? Device, string Text, decimal? Grams);

/// <param name="Text">In English; see <see cref="AlertSituation"/>.</param>
/// <param name="ExpectedGrams">As predicted before the weight, with its 95 % interval.</param>
internal sealed record FindingSituation(
    DateTimeOffset At, string? Chick, string Finding, string Severity, string Text,
    decimal? Grams = null, decimal? ExpectedGrams = null, decimal? LowGrams = null, decimal? HighGrams = null);

/// <summary>A feed or a chore that is due and has not been written down yet.</summary>
/// <param name="Due">feed, or the chore.</param>
internal sealed record DueSituation(DateTimeOffset At, string Due, string? Chick, DateTimeOffset? DueAt, string Text);
