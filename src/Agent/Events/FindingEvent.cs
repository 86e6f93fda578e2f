namespace CaptureAgent.Agent.Events;

/// <summary>Something that a keeper must look at; never a diagnosis.</summary>
/// <param name="Chick">Null: the whole room.</param>
/// <param name="Severity">red (today, before the next feed), look (today) or note.</param>
internal sealed record FindingEvent(DateTimeOffset At, string? Chick, string Finding, string Severity, string Text) : StationEvent(At)
{
    public override string Name => "finding";
}
