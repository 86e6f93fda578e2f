using System.Text.Json.Serialization;

namespace CaptureAgent.Agent.Events;

/// <summary>Something that the core decided. <see cref="At"/> is the moment of the decision, never back-dated.</summary>
internal abstract record StationEvent([property: JsonPropertyOrder(-2)] DateTimeOffset At)
{
    /// <summary>The event's name in the output.</summary>
    [JsonPropertyName("event"), JsonPropertyOrder(-1)]
    public abstract string Name { get; }
}
