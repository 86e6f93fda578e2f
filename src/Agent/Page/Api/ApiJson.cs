using System.Text.Json.Serialization;
using CaptureAgent.Agent.Page.Guard;
using CaptureAgent.Agent.Page.Live;

namespace CaptureAgent.Agent.Page.Api;

/// <summary>Everything that goes in and out of the API.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, PropertyNameCaseInsensitive = false, UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow)]
[JsonSerializable(typeof(Situation))]
[JsonSerializable(typeof(Beat))]
[JsonSerializable(typeof(Problem))]
[JsonSerializable(typeof(MeView))]
[JsonSerializable(typeof(ChickView))]
[JsonSerializable(typeof(ChickPage))]
[JsonSerializable(typeof(ChickRecord))]
[JsonSerializable(typeof(ReferenceView))]
[JsonSerializable(typeof(RoundView))]
[JsonSerializable(typeof(WeighingPage))]
[JsonSerializable(typeof(FeedPage))]
[JsonSerializable(typeof(InstrumentList))]
[JsonSerializable(typeof(BatchView))]
[JsonSerializable(typeof(ImportView))]
[JsonSerializable(typeof(Done))]
[JsonSerializable(typeof(CodeView))]
[JsonSerializable(typeof(PairedView))]
[JsonSerializable(typeof(DeviceList))]
[JsonSerializable(typeof(SheetList))]
[JsonSerializable(typeof(HealthView))]
[JsonSerializable(typeof(ChickWish))]
[JsonSerializable(typeof(CorrectionWish))]
[JsonSerializable(typeof(TakeBackWish))]
[JsonSerializable(typeof(CodeWish))]
[JsonSerializable(typeof(PairingWish))]
internal sealed partial class ApiJson : JsonSerializerContext;
