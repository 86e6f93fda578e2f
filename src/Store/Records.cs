namespace CaptureAgent.Store;

/// <summary>One chick of the register.</summary>
/// <param name="Code">As printed on its card, case kept.</param>
/// <param name="Hatched">Calendar date of hatching: day 0.</param>
/// <param name="Left">Date on which it left the nursery, if it has.</param>
public sealed record Chick(
    string Code, string? Species, DateOnly? Hatched, string? Clutch = null, string? Brooder = null,
    string? Band = null, DateOnly? Left = null, string? Note = null)
{
    /// <summary>Days since hatching, up to the day on which it left; null without a date of hatching.</summary>
    public int? AgeOn(DateOnly day) => (Left < day ? Left.Value : day).DayNumber - Hatched?.DayNumber;
}

public enum Verdict
{
    /// <summary>Enters the growth record.</summary>
    Accepted,

    /// <summary>Kept with its evidence, not in the growth record.</summary>
    Rejected,
}

/// <summary>Where a weighing row came from.</summary>
public enum Origin
{
    Captured,
    Imported,

    /// <summary>A later row for a weighing captured before its chick was registered.</summary>
    Adopted,

    /// <summary>A later row that a later rule of weighing put in the place of an earlier one, from the same evidence.</summary>
    Rejudged,
}

/// <summary>One attempt at weighing, as decided. Rows are only ever added.</summary>
/// <param name="Milligrams">Best value; null where there was none.</param>
/// <param name="UncertaintyMilligrams">One standard uncertainty (k = 1).</param>
/// <param name="Day">The nursery day.</param>
/// <param name="Zone">The station's time zone (IANA name) beside the UTC time.</param>
/// <param name="Replaces">The row that this one takes the place of, if any.</param>
/// <param name="Written">Imported rows: the decimals that the file gave, so that an export gives the same text; else null.</param>
public sealed record WeighingRow(
    Guid Id, string? Chick, DateTimeOffset? At, string Zone, DateOnly Day,
    long? Milligrams, long? UncertaintyMilligrams, long? TareMilligrams,
    Verdict Verdict, IReadOnlyList<string> Reasons, string? Remedy, int? AgeDays,
    Origin Origin, string Station, string? Device, Guid? Replaces = null, WrittenDecimals? Written = null);

/// <summary>How many decimals of a gram the imported file gave.</summary>
public readonly record struct WrittenDecimals(int Grams, int Uncertainty, int Tare);

public enum WeighingState
{
    Stands,

    /// <summary>A later row took its place.</summary>
    Replaced,

    /// <summary>The keeper took it back.</summary>
    TakenBack,
}

/// <summary>A weighing as it lies in the store.</summary>
/// <param name="Arrival">Counts up in the order of arrival.</param>
public sealed record StoredWeighing(WeighingRow Row, WeighingState State, long Arrival);

/// <summary>The accepted weights of one chick that stand: one a nursery day, oldest first.</summary>
public sealed record GrowthRecord(string Chick, List<DateOnly> Days, List<long> Milligrams);

/// <summary>What was registered of a chick from a moment on.</summary>
public sealed record ChickVersion(Chick Chick, DateTimeOffset RecordedAt);

/// <summary>One feed given.</summary>
/// <param name="Way">How it was told: card, scan (once more after the weighing), weighing (a second one right after) or brooder (all chicks of one).</param>
public sealed record FeedRow(
    Guid Id, string Chick, DateTimeOffset At, string Zone, DateOnly Day, int? Batch, string? BatchState, string Station, string Way = "card");

/// <summary>What a chick took at a feed: the difference of the weighings before and after it.</summary>
/// <param name="UncertaintyMilligrams">One standard uncertainty (k = 1).</param>
public sealed record IntakeRow(
    Guid Id, Guid Feed, Guid Before, Guid After, DateTimeOffset At, string Zone, string Station, long Milligrams, long UncertaintyMilligrams);

/// <summary>A keeper saw this chick's crop full when it should have been empty.</summary>
public sealed record CropMarkRow(Guid Id, string Chick, DateTimeOffset At, string Zone, DateOnly Day, string Station);

/// <summary>A chore of hygiene that was done.</summary>
public sealed record ChoreRow(Guid Id, string Chore, DateTimeOffset At, string Zone, string Station);

/// <summary>What a keeper saw of a chick.</summary>
/// <param name="Kind">A word, as the card has it.</param>
public sealed record ObservationRow(Guid Id, string Chick, DateTimeOffset At, string Zone, DateOnly Day, string Kind, string Station);

/// <summary>One weight of the growth record, without what an account of the weighing would need.</summary>
/// <param name="Decimals">Of the grams as an imported file wrote them; null for a captured weight.</param>
public readonly record struct GrowthWeight(string Chick, DateOnly Day, long Milligrams, long? UncertaintyMilligrams, int? Decimals);

/// <summary>One row taken back by the keeper: a weighing, a feed, a crop seen full, an observation, a chore, or a batch (by its first row).</summary>
public sealed record UndoRow(Guid Id, DateTimeOffset At, string Zone, Guid Undone, string Station);

/// <summary>One check of a scale with a known mass.</summary>
/// <param name="Milligrams">What the scale made of it.</param>
/// <param name="UncertaintyMilligrams">One standard uncertainty (k = 1).</param>
/// <param name="ToleranceMilligrams">Largest error that is allowed.</param>
public sealed record ScaleCheckRow(
    Guid Id, DateTimeOffset At, string Zone, string Station, string Device,
    long Milligrams, long UncertaintyMilligrams, long ExpectedMilligrams, long ToleranceMilligrams)
{
    public long ErrorMilligrams => Milligrams - ExpectedMilligrams;

    public bool IsWithinTolerance => Math.Abs(ErrorMilligrams) <= ToleranceMilligrams;
}

/// <summary>What lay on the pan after a weighing was lifted: a row of its own, for the weighing's is on disk before the lift.</summary>
/// <param name="Weighing">Id of the weighing.</param>
/// <param name="BeforeMilligrams">The tare of the weighing.</param>
/// <param name="AfterMilligrams">The same liner after the lift.</param>
/// <param name="UncertaintyMilligrams">One standard uncertainty (k = 1) of the change.</param>
/// <param name="Slip">More than drift and noise, and more than the weight may be off.</param>
/// <param name="DriftFreeMilligrams">The weight without the straight-line drift between the two; null where the change is no drift.</param>
public sealed record TareAfterRow(
    Guid Id, Guid Weighing, DateTimeOffset At, string Zone, string Station, string Device,
    long BeforeMilligrams, long AfterMilligrams, long UncertaintyMilligrams, bool Slip, long? DriftFreeMilligrams)
{
    public long ChangeMilligrams => AfterMilligrams - BeforeMilligrams;
}

/// <summary>A batch of formula at the moment when its state changed. Rows are only ever added; the newest of a batch is how it stands.</summary>
/// <param name="Number">Counts from one in each nursery day.</param>
/// <param name="Device">The probe that measures it; null: none yet.</param>
/// <param name="Millicelsius">Best value; null while it is not measured.</param>
/// <param name="BelowBandAt">When it was expected to be too cold; null where that is not known.</param>
/// <param name="ProbeChecked">The probe had been checked within the time for which a check counts.</param>
/// <param name="ConstantMilliseconds">The probe's time constant; null until it is known.</param>
public sealed record BatchRow(
    Guid Id, int Number, DateOnly Day, DateTimeOffset At, string Zone, string Station, string? Device, string State,
    DateTimeOffset MixedAt, DateTimeOffset DiscardAt, int? Millicelsius, DateTimeOffset? BelowBandAt, bool ProbeChecked, int? ConstantMilliseconds);

/// <summary>One check of a probe against a known temperature.</summary>
/// <param name="Kind">ice, boil or reference.</param>
/// <param name="Millicelsius">What the probe showed.</param>
public sealed record ProbeCheckRow(
    Guid Id, DateTimeOffset At, string Zone, string Station, string Device, string Kind, int Millicelsius, int ExpectedMillicelsius, int ToleranceMillicelsius)
{
    public int ErrorMillicelsius => Millicelsius - ExpectedMillicelsius;

    public bool IsWithinTolerance => Math.Abs(ErrorMillicelsius) <= ToleranceMillicelsius;
}

/// <summary>What one dip of a probe has shown of its lag.</summary>
/// <param name="ConstantMilliseconds">The most likely time constant.</param>
/// <param name="Lags">All that is possible, as text: <c>ratio:share:mean:deviation</c> for each ratio of a second time constant to the first, apart by blanks;
/// mean and deviation are of the natural logarithm of the first constant in seconds.</param>
public sealed record ProbeLagRow(Guid Id, DateTimeOffset At, string Zone, string Station, string Device, int ConstantMilliseconds, string Lags);

/// <summary>Everything that was ever recorded, as it came.</summary>
/// <param name="Weighings">In the order of arrival.</param>
/// <param name="Feeds">Those taken back too, oldest first.</param>
/// <param name="Undos">Oldest first.</param>
/// <param name="CropMarks">Those taken back too, oldest first.</param>
public sealed record RecordHistory(
    IReadOnlyList<StoredWeighing> Weighings, IReadOnlyList<FeedRow> Feeds, IReadOnlyList<UndoRow> Undos, IReadOnlyList<CropMarkRow> CropMarks);

/// <summary>The raw samples behind a decision, and what they were measured with.</summary>
/// <param name="Format">Names the layout of <paramref name="Samples"/>, so that a later version can read it.</param>
/// <param name="Samples">Uncompressed; the store compresses.</param>
public sealed record Evidence(string Format, ReadOnlyMemory<byte> Samples)
{
    /// <summary>Null where the weight had not settled.</summary>
    public EvidenceMotion? Motion { get; init; }
}

/// <summary>How the load moved, and the scale at rest, when the weight was taken.</summary>
/// <param name="ForceMicrograms">Standard deviation of the readings about their trend, beyond rounding and the scale's own noise.</param>
/// <param name="MomentumMicrograms">Of their integral about its line: microgram-seconds.</param>
/// <param name="StillMicrograms">Of the readings when nothing moves.</param>
public sealed record EvidenceMotion(long ForceMicrograms, long MomentumMicrograms, long StillMicrograms);

/// <summary>How a chick moved at a weighing that stands.</summary>
public sealed record MotionRow(Guid Weighing, string Chick, DateOnly Day, string? Device, long Milligrams, EvidenceMotion Motion);

/// <summary>The store cannot be opened, read or written.</summary>
/// <param name="message">What is wrong, and where.</param>
/// <param name="remedy">What to do about it.</param>
public sealed class StoreException(string message, string remedy, Exception? inner = null) : Exception(message, inner)
{
    public string Remedy { get; } = remedy;
}
