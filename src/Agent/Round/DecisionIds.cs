namespace CaptureAgent.Agent.Round;

/// <summary>Ids of decisions. The same decision in a replay has the same id: stored twice, it is one row.</summary>
internal sealed class DecisionIds(string station)
{
    private long sequence;

    public Guid Next(string kind, DateTimeOffset at) => NameBasedId.Of(FormattableString.Invariant($"{station}/{kind}/{at.UtcTicks}/{sequence++}"));
}
