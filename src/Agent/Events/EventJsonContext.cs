using System.Text.Json.Serialization;

namespace CaptureAgent.Agent.Events;

/// <summary>Every event type; a test holds this list and the types together.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(WeighingEvent))]
[JsonSerializable(typeof(FeedEvent))]
[JsonSerializable(typeof(IntakeEvent))]
[JsonSerializable(typeof(CropEvent))]
[JsonSerializable(typeof(ChoreEvent))]
[JsonSerializable(typeof(DueEvent))]
[JsonSerializable(typeof(FindingEvent))]
[JsonSerializable(typeof(UndoEvent))]
[JsonSerializable(typeof(ObservationEvent))]
[JsonSerializable(typeof(CheckEvent))]
[JsonSerializable(typeof(TareAfterEvent))]
[JsonSerializable(typeof(DeviceEvent))]
[JsonSerializable(typeof(AlertEvent))]
[JsonSerializable(typeof(ProbeEvent))]
[JsonSerializable(typeof(BatchEvent))]
[JsonSerializable(typeof(ProbeCheckEvent))]
[JsonSerializable(typeof(ProbeLagEvent))]
[JsonSerializable(typeof(ScanEvent))]
[JsonSerializable(typeof(TareEvent))]
[JsonSerializable(typeof(PlacedEvent))]
[JsonSerializable(typeof(LiftedEvent))]
internal sealed partial class EventJsonContext : JsonSerializerContext;
