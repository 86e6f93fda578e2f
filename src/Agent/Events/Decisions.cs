using System.Text.Json.Serialization;
using CaptureAgent.Agent.Feeding;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Events;

/// <summary>An event that is true only once it is on disk: it is committed first and told afterwards.</summary>
internal abstract record DecisionEvent(DateTimeOffset At) : StationEvent(At)
{
    /// <summary>Given at the decision, so that a commit tried again is the same row.</summary>
    [JsonIgnore]
    public Guid Id { get; init; }

    /// <summary>It is told at once and stored afterwards, instead of the other way round.</summary>
    [JsonIgnore]
    public virtual bool ToldFirst => false;

    /// <summary>Whether it becomes a row.</summary>
    [JsonIgnore]
    public virtual bool IsKept => true;

    /// <summary>Set only where the commit came later than the decision.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public DateTimeOffset? StoredAt { get; init; }
}

/// <summary>The one decision on one placing. What is not known is null.</summary>
internal sealed record WeighingEvent(
    DateTimeOffset At, string? Chick, decimal? Grams, decimal? UncertaintyGrams, string Verdict,
    IReadOnlyList<string> Reasons, string? Remedy, decimal? TareGrams, int? AgeDays, string Device) : DecisionEvent(At)
{
    public override string Name => "weighing";

    /// <summary>The chick of the register that an implausible weight would fit.</summary>
    public string? Fits { get; init; }

    /// <summary>Id of today's weighing that this one replaces.</summary>
    public Guid? Replaces { get; init; }

    /// <summary>Grams above (or below) the morning weight before.</summary>
    public decimal? GainGrams { get; init; }

    /// <summary>What the uncertainty is made of; null where none is told.</summary>
    public WeighingBudget? Budget { get; init; }

    /// <summary>What speaks for food in the crop, and what against it; null where no weight was judged.</summary>
    public CropEvidence? Crop { get; init; }

    [JsonIgnore]
    public DateOnly Day { get; init; }

    /// <summary>Rejected, because today's weight stands, and it agrees with it: no refusal to a keeper's ears.</summary>
    [JsonIgnore]
    public bool Confirms { get; init; }

    [JsonIgnore]
    public Evidence? Evidence { get; init; }
}

/// <summary>Independent parts of the uncertainty, each one standard uncertainty in grams: their squares add up to that of the whole.</summary>
/// <param name="RepeatabilityGrams">Motion and settling.</param>
/// <param name="QuantisationGrams">Rounding to the scale's division.</param>
/// <param name="TareGrams">Of the tare's level.</param>
/// <param name="DriftGrams">What the zero may have moved since the tare.</param>
/// <param name="ScaleGrams">The scale's error within its specification.</param>
internal sealed record WeighingBudget(decimal RepeatabilityGrams, decimal QuantisationGrams, decimal TareGrams, decimal DriftGrams, decimal ScaleGrams);

internal sealed record FeedEvent(DateTimeOffset At, string Chick, int? Batch, string? BatchState) : DecisionEvent(At)
{
    public override string Name => "feed";

    /// <summary>How it was told: card, scan, weighing or brooder.</summary>
    public string Way { get; init; } = FeedWays.Card;

    [JsonIgnore]
    public DateOnly Day { get; init; }
}

/// <summary>What a keeper saw of a chick.</summary>
internal sealed record ObservationEvent(DateTimeOffset At, string Chick, string Observation) : DecisionEvent(At)
{
    public override string Name => "observation";

    [JsonIgnore]
    public DateOnly Day { get; init; }
}

/// <param name="Chick">Null: what was taken back is about none.</param>
/// <param name="Undone">weighing, feed, crop, observation, chore or batch.</param>
internal sealed record UndoEvent(DateTimeOffset At, string? Chick, string Undone) : DecisionEvent(At)
{
    public override string Name => "undo";

    /// <summary>Kind of the observation taken back.</summary>
    public string? Observation { get; init; }

    /// <summary>The chore taken back.</summary>
    public string? Chore { get; init; }

    /// <summary>Id of the row taken back.</summary>
    [JsonIgnore]
    public Guid UndoneId { get; init; }
}

/// <summary>What lay on the pan after a weighing, beside its tare. It changes no weight.</summary>
/// <param name="TareGrams">The tare of the weighing.</param>
/// <param name="AfterGrams">The same liner after the lift.</param>
/// <param name="UncertaintyGrams">One standard uncertainty (k = 1) of <paramref name="ChangeGrams"/>.</param>
/// <param name="Slip">The change is more than drift and noise, and more than the weight may be off.</param>
/// <param name="DriftFreeGrams">The weight without the straight-line drift between the two tares; null where the change is no drift.</param>
internal sealed record TareAfterEvent(
    DateTimeOffset At, string Device, string? Chick, decimal TareGrams, decimal AfterGrams, decimal ChangeGrams, decimal UncertaintyGrams, bool Slip,
    decimal? DriftFreeGrams) : DecisionEvent(At)
{
    public override string Name => "tare-after";

    [JsonIgnore]
    public Guid WeighingId { get; init; }
}
