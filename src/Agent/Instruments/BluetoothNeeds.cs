using CaptureAgent.Agent.Configuration;
using CaptureAgent.Protocol.Gatt;

namespace CaptureAgent.Agent.Instruments;

/// <summary>What a Bluetooth link must ask of a device so that its dialect can be read. UUIDs are lower-case: four digits where the Bluetooth SIG gave the number, else all 36 characters.</summary>
/// <param name="ServiceData">UUID of the service data to take from advertisements; no connection is needed then. Null: connect.</param>
/// <param name="Subscribe">Characteristics whose notifications or indications are wanted; those that the device has not are left out. Empty with no service data: all that notify.</param>
/// <param name="Read">Characteristics to read once after each connect, if the device has them.</param>
/// <param name="Start">Written after subscribing; null: nothing.</param>
/// <remarks>Each value is a <see cref="Trace.TraceRecord"/> with the UUID as its source.</remarks>
internal sealed record BluetoothNeeds(string? ServiceData, IReadOnlyList<string> Subscribe, IReadOnlyList<string> Read, StartCommand? Start)
{
    /// <summary>Battery Level. Also read from time to time: the instrument warns when it is low.</summary>
    public const string BatteryLevel = "2a19";

    public const string BtHomeServiceData = "fcd2";

    private static readonly BluetoothNeeds Everything = new(null, [], KnownCharacteristic.Introducing, null);

    public static BluetoothNeeds Of(DeviceOptions device) => device.Dialect switch
    {
        "weight-scale" => new(null, ["2a9d"], ["2a9e"], null),
        "health-thermometer" => new(null, ["2a1c", "2a1e"], ["2a21"], null),
        "environmental-sensing" => new(null, ["2a6e"], [], null),
        "bthome" => new(BtHomeServiceData, [], [], null),
        _ when device.Frame is { Characteristic: { } characteristic } frame => new(null, [Short(characteristic)], [], StartOf(frame, characteristic)),
        _ => Everything,
    };

    /// <summary>A UUID in its shortest form: the numbers of the Bluetooth SIG lie in a base of their own (Bluetooth Core Specification, Vol 3, Part B, 2.5.1).</summary>
    public static string Short(string uuid)
    {
        const string prefix = "0000", suffix = "-0000-1000-8000-00805f9b34fb";
        var lower = uuid.ToLowerInvariant();
        return lower.Length == 36 && lower.StartsWith(prefix, StringComparison.Ordinal) && lower.EndsWith(suffix, StringComparison.Ordinal) ? lower[4..8] : lower;
    }

    private static StartCommand? StartOf(FrameOptions frame, string characteristic) => frame.Start is { } start
        ? new(Short(frame.StartCharacteristic ?? characteristic), Convert.FromHexString(start))
        : null;
}

/// <summary>What makes a device begin to send.</summary>
/// <param name="Characteristic">UUID of where to write.</param>
internal sealed record StartCommand(string Characteristic, ReadOnlyMemory<byte> Bytes);
