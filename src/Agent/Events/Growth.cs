namespace CaptureAgent.Agent.Events;

/// <summary>Something out of line in a chick's growth; chick null: the whole room. It never diagnoses.</summary>
/// <param name="ExpectedGrams">As predicted before the weight, with its 95 % interval.</param>
internal sealed record FindingEvent(
    DateTimeOffset At, string? Chick, string Finding, string Severity, string Text,
    decimal? Grams, decimal? ExpectedGrams, decimal? LowGrams, decimal? HighGrams) : StationEvent(At)
{
    public override string Name => "finding";
}
