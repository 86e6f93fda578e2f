namespace CaptureAgent.Agent.Events;

/// <summary>Something out of line in a chick's growth; chick null: the whole room. It never diagnoses.</summary>
/// <param name="ExpectedGrams">As predicted before the weight, with its 95 % interval.</param>
internal sealed record FindingEvent(
    DateTimeOffset At, string? Chick, string Finding, string Severity, string Text,
    decimal? Grams = null, decimal? ExpectedGrams = null, decimal? LowGrams = null, decimal? HighGrams = null) : StationEvent(At)
{
    public override string Name => "finding";
}
