namespace CaptureAgent.Agent.Events;

/// <summary>A code was read. <paramref name="Taken"/> says what became of it.</summary>
internal sealed record ScanEvent(DateTimeOffset At, string Device, string Code, string Taken, string? Text) : StationEvent(At)
{
    public override string Name => "scan";
}

/// <summary>What lies on the pan is the tare from now on.</summary>
internal sealed record TareEvent(DateTimeOffset At, string Device, decimal Grams, decimal UncertaintyGrams) : StationEvent(At)
{
    public override string Name => "tare";
}

internal sealed record PlacedEvent(DateTimeOffset At, string Device, string? Chick) : StationEvent(At)
{
    public override string Name => "placed";
}

internal sealed record LiftedEvent(DateTimeOffset At, string Device, string? Chick) : StationEvent(At)
{
    public override string Name => "lifted";
}
