using CaptureAgent.Agent.Configuration;
using CaptureAgent.Protocol;
using CaptureAgent.Protocol.Probes;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Instruments;

/// <summary>The stream of readings for each dialect of a checked station.json.</summary>
internal static class Streams
{
    /// <summary>The scale sends values that it has finished, few and far between, not what its pan feels.</summary>
    public static bool IsFinished(DeviceOptions device) => device is { Role: "scale", Dialect: "weight-scale" or "bthome" };

    public static IReadingStream<ScaleReading> Scale(DeviceOptions device) => device.Dialect switch
    {
        "weight-scale" => Frames(new WeightMeasurementDecoder(), "2a9d", new WeightStamps().IsRepeated),
        "hid" => Frames(new HidScaleReport(), "hid"),
        "bthome" => new BtHomeStream<ScaleReading>(device, BtHomePicks.Mass),
        "frame" => Described(FrameDescriptions.Scale(device.Frame!), device.Frame!),
        _ => new LineStream<ScaleReading>(ScaleDialects.Create(device.Dialect, device.Pattern, device.Sample).Decoder
            ?? throw new InvalidOperationException($"{device.Id}: the dialect was not checked at start.")),
    };

    public static IReadingStream<ProbeReading> Probe(DeviceOptions device) => device.Dialect switch
    {
        "health-thermometer" => Thermometer(),
        "environmental-sensing" => Frames(new EnvironmentalTemperature(), "2a6e"),
        "bthome" => new BtHomeStream<ProbeReading>(device, BtHomePicks.Temperature),
        "frame" => Described(FrameDescriptions.Probe(device.Frame!), device.Frame!),
        _ => new LineStream<ProbeReading>(new TextProbe()),
    };

    private static FrameStream<ProbeReading> Thermometer()
    {
        var final = new TemperatureMeasurementDecoder(isIntermediate: false);
        var intermediate = new TemperatureMeasurementDecoder(isIntermediate: true);
        return new(source => source switch { "2a1c" => final, "2a1e" => intermediate, _ => null });
    }

    private static FrameStream<TReading> Frames<TReading>(IDecoder<TReading> decoder, string only, Func<ReadOnlySpan<byte>, bool>? isRepeated = null)
        where TReading : struct => new(source => source == only ? decoder : null, isRepeated: isRepeated);

    // A description that names no characteristic takes whatever the device sends.
    private static FrameStream<TReading> Described<TReading>(IDecoder<TReading> decoder, FrameOptions frame)
        where TReading : struct
    {
        var only = frame.Characteristic is { } characteristic ? BluetoothNeeds.Short(characteristic) : null;
        return new(source => only is null || source == only ? decoder : null, FrameDescriptions.Make(frame).Clock);
    }
}
