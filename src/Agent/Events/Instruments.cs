using System.Text.Json.Serialization;

namespace CaptureAgent.Agent.Events;

/// <summary>A device came up, went down, or has said nothing for too long.</summary>
internal sealed record DeviceEvent(DateTimeOffset At, string Device, string State, string? Detail, string? Cause = null) : StationEvent(At)
{
    public override string Name => "device";
}

/// <summary>Something that a person should hear now and that is no weighing.</summary>
internal sealed record AlertEvent(DateTimeOffset At, string Alert, string? Chick, string? Device, string Text) : StationEvent(At)
{
    public override string Name => "alert";

    /// <summary>The weight that the alert is about; told only where there is one.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public decimal? Grams { get; init; }
}
