using System.Text.Json.Serialization;

namespace CaptureAgent.Agent.Events;

/// <summary>How a feed was told.</summary>
internal static class FeedWays
{
    /// <summary>The fed card and the chick's code.</summary>
    public const string Card = "card";

    /// <summary>The chick's code once more after its weighing, where the station says so.</summary>
    public const string Scan = "scan";

    /// <summary>A second weighing right after the first, where the station says so.</summary>
    public const string Weighing = "weighing";

    /// <summary>The fed card and the code of a brooder: all chicks in it.</summary>
    public const string Brooder = "brooder";
}

/// <summary>What a chick took at a feed, by weighing before and after it.</summary>
/// <param name="UncertaintyGrams">One standard uncertainty (k = 1).</param>
/// <param name="PercentOfWeight">Of the weight before the feed.</param>
internal sealed record IntakeEvent(DateTimeOffset At, string Chick, decimal Grams, decimal UncertaintyGrams, decimal PercentOfWeight) : DecisionEvent(At)
{
    public override string Name => "intake";

    [JsonIgnore]
    public Guid FeedId { get; init; }

    [JsonIgnore]
    public Guid BeforeId { get; init; }

    [JsonIgnore]
    public Guid AfterId { get; init; }
}

/// <summary>A keeper saw this chick's crop full when it should have been empty.</summary>
internal sealed record CropEvent(DateTimeOffset At, string Chick) : DecisionEvent(At)
{
    public override string Name => "crop";

    [JsonIgnore]
    public DateOnly Day { get; init; }
}

/// <summary>A chore of hygiene was done.</summary>
internal sealed record ChoreEvent(DateTimeOffset At, string Chore) : DecisionEvent(At)
{
    public override string Name => "chore";
}

/// <summary>Something must be done now: a chick is to be fed, or a chore of hygiene is to be done.</summary>
/// <param name="Due">"feed", or the chore.</param>
/// <param name="DueAt">Since when; null for a chore that has never been recorded, or that an event has made due.</param>
internal sealed record DueEvent(DateTimeOffset At, string Due, string? Chick, DateTimeOffset? DueAt, string Text) : StationEvent(At)
{
    public override string Name => "due";
}
