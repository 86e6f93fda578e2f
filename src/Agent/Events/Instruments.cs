namespace CaptureAgent.Agent.Events;

/// <summary>A device came up, went down, or has said nothing for too long.</summary>
internal sealed record DeviceEvent(DateTimeOffset At, string Device, string State, string? Detail) : StationEvent(At)
{
    public override string Name => "device";
}

/// <summary>Something that a person should hear now and that is no weighing.</summary>
internal sealed record AlertEvent(DateTimeOffset At, string Alert, string? Chick, string? Device, string Text) : StationEvent(At)
{
    public override string Name => "alert";
}

/// <summary>A temperature of formula.</summary>
internal sealed record ProbeEvent(DateTimeOffset At, string Device, decimal Celsius, decimal UncertaintyCelsius, bool Settled) : StationEvent(At)
{
    public override string Name => "probe";
}

/// <summary>A batch of formula changed its state.</summary>
internal sealed record BatchEvent(
    DateTimeOffset At, int Batch, string State, decimal? Celsius, DateTimeOffset? DiscardAt, DateTimeOffset? BelowBandAt) : StationEvent(At)
{
    public override string Name => "batch";
}
