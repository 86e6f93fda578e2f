namespace CaptureAgent.Agent.Thriving;

/// <summary>Something out of line, and what to ask next. It never says why.</summary>
/// <param name="Chick">Null: the whole room.</param>
/// <param name="Kind">One of <see cref="FindingKinds"/>.</param>
/// <param name="Severity">One of <see cref="Severities"/>.</param>
/// <param name="Text">Evidence and the question to ask next, for a keeper.</param>
/// <param name="Grams">The day's weight; null if there is none.</param>
/// <param name="ExpectedGrams">As predicted before that weight; likewise the 95 % interval.</param>
internal sealed record GrowthFinding(
    string? Chick, DateOnly Day, string Kind, string Severity, string Text,
    double? Grams = null, double? ExpectedGrams = null, double? LowGrams = null, double? HighGrams = null)
{
    /// <summary>In order for a chick at its stage: of many chicks it is said in one sentence (<see cref="UsualNotes"/>).</summary>
    public bool IsUsual { get; init; }
}

internal static class Severities
{
    /// <summary>Today, before the next feed.</summary>
    public const string Red = "red";

    /// <summary>Today.</summary>
    public const string Look = "look";

    public const string Note = "note";
}

/// <summary>The words of the findings.</summary>
internal static class FindingKinds
{
    public const string Loss = "loss";
    public const string Stall = "stall";
    public const string Slow = "slow";

    /// <summary>Falling through centiles.</summary>
    public const string Crossing = "crossing";

    /// <summary>More than growth explains: is the crop empty?</summary>
    public const string TooGood = "too-good";

    public const string WeaningLoss = "weaning-loss";
    public const string WeaningDue = "weaning-due";
    public const string NotWeighed = "not-weighed";
    public const string BehindClutch = "behind-clutch";
    public const string Swapped = "swapped";
    public const string RoomShift = "room-shift";

    /// <summary>What a keeper saw that cannot wait, whatever the weight says.</summary>
    public const string Observation = "observation";

    /// <summary>A recorded weight that cannot be right.</summary>
    public const string Implausible = "implausible";

    /// <summary>Loss, stall or slow, by what the chick gained since the onset.</summary>
    public static string Of(in ShortfallEvidence evidence) => Of(evidence.Rate, evidence.ExpectedRate);

    /// <param name="rate">Gain of ln(weight) a day; likewise what was expected.</param>
    public static string Of(double rate, double expected) => (rate / Math.Max(expected, 0.01)) switch
    {
        < -0.2 => Loss,
        < 0.25 => Stall,
        _ => Slow,
    };
}
