using CaptureAgent.Store;

namespace CaptureAgent.Agent.Page.Api;

/// <summary>Who asks, and of what station.</summary>
/// <param name="Role">look or keeper; null: not paired.</param>
/// <param name="Here">At the station itself.</param>
internal sealed record MeView(string Station, string? Name, string? Role, bool Here);

/// <summary>The station's time, a word at least every ten seconds.</summary>
internal sealed record Beat(DateTimeOffset At);

/// <summary>A chick as registered.</summary>
internal sealed record ChickView(
    string Code, string? Species, DateOnly? Hatched, string? Clutch, string? Brooder, string? Band, DateOnly? Left, string? Note)
{
    public static ChickView Of(Chick chick) =>
        new(chick.Code, chick.Species, chick.Hatched, chick.Clutch, chick.Brooder, chick.Band, chick.Left, chick.Note);
}

/// <param name="Next">Give it as <c>cursor</c> to go on; null at the end.</param>
internal sealed record ChickPage(IReadOnlyList<ChickView> Items, string? Next);

/// <summary>One chick in a round.</summary>
/// <param name="State">done, refused or to-do.</param>
/// <param name="Grams">Today's weight; of a refused one the best value there was.</param>
/// <param name="GainPercent">From the morning weight before, per cent of that.</param>
/// <param name="LastGrams">The morning weight before today.</param>
/// <param name="Red">What is urgent about this chick today; null: nothing.</param>
/// <param name="FedAt">Its last feed within two days.</param>
/// <param name="FeedDueAt">Its next feed by the plan; null: no feed of it is known, or it is weaned.</param>
internal sealed record RoundRow(
    string Chick, string? Species, string? Brooder, string? Clutch, int? AgeDays, string State, decimal? Grams, decimal? UncertaintyGrams,
    decimal? GainGrams, decimal? GainPercent, DateTimeOffset? At, IReadOnlyList<string> Reasons, decimal? LastGrams, DateOnly? LastDay, Live.FindingSituation? Red,
    DateTimeOffset? FedAt, DateTimeOffset? FeedDueAt);

/// <param name="Unnamed">Refused weighings of the day without a chick of the register.</param>
internal sealed record RoundView(DateOnly Day, int Done, int Refused, int ToDo, int Reds, int Unnamed, IReadOnlyList<RoundRow> Chicks);

/// <summary>Who did it by hand, and why.</summary>
internal sealed record HandView(DateTimeOffset At, string Who, string Reason)
{
    public static HandView Of(HandEntry entry) => new(entry.At, entry.Who, entry.Reason);
}

/// <param name="State">stands, replaced or taken-back.</param>
/// <param name="Added">Set if this row was made by hand.</param>
/// <param name="TakenBack">Set if it was taken back on the page.</param>
internal sealed record WeighingView(
    Guid Id, string? Chick, DateTimeOffset? At, DateOnly Day, decimal? Grams, decimal? UncertaintyGrams, decimal? TareGrams, string Verdict,
    IReadOnlyList<string> Reasons, string? Remedy, int? AgeDays, string Origin, string? Device, Guid? Replaces, string State,
    HandView? Added = null, HandView? TakenBack = null)
{
    public static WeighingView Of(StoredWeighing stored, IReadOnlyList<HandEntry>? hands = null) => new(
        stored.Row.Id, stored.Row.Chick, stored.Row.At, stored.Row.Day, Gram.Of(stored.Row.Milligrams), Gram.Of(stored.Row.UncertaintyMilligrams),
        Gram.Of(stored.Row.TareMilligrams), stored.Row.Verdict == Store.Verdict.Accepted ? "accepted" : "rejected", stored.Row.Reasons, stored.Row.Remedy,
        stored.Row.AgeDays, Word(stored.Row.Origin), stored.Row.Device, stored.Row.Replaces, Word(stored.State),
        hands?.LastOrDefault(hand => hand.Weighing == stored.Row.Id) is { } added ? HandView.Of(added) : null,
        hands?.LastOrDefault(hand => hand.Undone == stored.Row.Id) is { } undone ? HandView.Of(undone) : null);

    private static string Word(Origin origin) => origin switch
    {
        Store.Origin.Captured => "captured",
        Store.Origin.Imported => "imported",
        Store.Origin.Adopted => "adopted",
        _ => "rejudged",
    };

    private static string Word(WeighingState state) => state switch
    {
        WeighingState.Stands => "stands",
        WeighingState.Replaced => "replaced",
        _ => "taken-back",
    };
}

internal sealed record WeighingPage(IReadOnlyList<WeighingView> Items, string? Next);

/// <param name="Way">How it was told: card, scan, weighing or brooder.</param>
/// <param name="IntakeGrams">What the chick took, where it was weighed before and after.</param>
internal sealed record FeedView(Guid Id, string Chick, DateTimeOffset At, DateOnly Day, int? Batch, string? BatchState, string Way, decimal? IntakeGrams)
{
    public static FeedView Of(FeedRow row, IReadOnlyDictionary<Guid, IntakeRow> intakes) => new(
        row.Id, row.Chick, row.At, row.Day, row.Batch, row.BatchState, row.Way, Gram.Of(intakes.GetValueOrDefault(row.Id)?.Milligrams));
}

internal sealed record FeedPage(IReadOnlyList<FeedView> Items, string? Next);

/// <summary>All of one chick: what a keeper looks at before a decision.</summary>
/// <param name="AgeDays">Of one that has left: on the day on which it left.</param>
/// <param name="Weighings">Newest first, at most 200; those replaced or taken back too.</param>
/// <param name="Growth">The growth record: one accepted weight a day, oldest first.</param>
/// <param name="Feeds">Of the last three days, oldest first; <paramref name="Notes"/> of the last thirty, newest first.</param>
internal sealed record ChickRecord(
    ChickView? Chick, string Code, int? AgeDays, IReadOnlyList<DayWeight> Growth, IReadOnlyList<WeighingView> Weighings, IReadOnlyList<FeedView> Feeds,
    IReadOnlyList<NoteView> Notes, IReadOnlyList<Live.FindingSituation> Findings);

/// <summary>What was seen of a chick.</summary>
/// <param name="Kind">As its card has it, or crop-full.</param>
internal sealed record NoteView(DateTimeOffset At, DateOnly Day, string Kind);

/// <summary>What chicks of the species weigh, day by day of age, as far as it is to be drawn.</summary>
/// <param name="Kind">own-records, published or group; null: nothing is known of the species, or the hatch date is missing.</param>
/// <param name="Source">What it is and where it comes from, in English.</param>
internal sealed record ReferenceView(string? Kind, string? Source, IReadOnlyList<ReferencePoint> Points);

/// <param name="Low">Grams at the 3rd centile; <paramref name="High"/>: at the 97th.</param>
internal sealed record ReferencePoint(int AgeDays, decimal Low, decimal Median, decimal High);

internal sealed record DayWeight(DateOnly Day, decimal Grams, decimal? UncertaintyGrams);

/// <param name="LastWords">What it sent last: text, or bytes in hexadecimal digits.</param>
internal sealed record InstrumentView(
    string Device, string Role, string Dialect, string? Connection, string State, DateTimeOffset? Since, string? Detail, string? Cause, DateTimeOffset? HeardAt,
    string? LastWords, IReadOnlyList<CheckView> Checks);

internal sealed record InstrumentList(IReadOnlyList<InstrumentView> Items);

/// <summary>One check of a scale with a known mass.</summary>
internal sealed record CheckView(DateTimeOffset At, decimal Grams, decimal ExpectedGrams, decimal ErrorGrams, decimal ToleranceGrams, bool Ok);

internal sealed record BatchView(Live.BatchSituation? Batch, IReadOnlyList<Temperature> Temperatures);

/// <summary>One reading of the probe in formula.</summary>
internal sealed record Temperature(DateTimeOffset At, decimal Celsius, bool Settled);

/// <param name="Usual">The one that is taken where none is named.</param>
internal sealed record SheetList(IReadOnlyList<string> Items, string Usual);

internal sealed record ImportView(bool Written, int Added, int Updated, int Unchanged, int Adopted, IReadOnlyList<string> Bad);

internal sealed record Done(Guid? Id, int Adopted = 0);

internal sealed record CodeView(string Code, string Role, DateTimeOffset ExpiresAt);

/// <param name="Token">For a program; a browser gets it as a cookie that no script can read.</param>
internal sealed record PairedView(Guid Id, string Name, string Role, string Token);

internal sealed record DeviceView(Guid Id, string Name, string Role, DateTimeOffset At, DateTimeOffset? EndedAt)
{
    public static DeviceView Of(PairedDevice device) => new(device.Id, device.Name, device.Role == PageRole.Keeper ? "keeper" : "look", device.At, device.EndedAt);
}

internal sealed record DeviceList(IReadOnlyList<DeviceView> Items);

internal sealed record HealthView(string Status, string Station, long Events);

/// <summary>Grams of the store's milligrams.</summary>
internal static class Gram
{
    public static decimal? Of(long? milligrams) => milligrams is { } value ? value / 1000m : null;
}
