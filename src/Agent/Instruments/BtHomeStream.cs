using CaptureAgent.Agent.Configuration;
using CaptureAgent.Protocol;
using CaptureAgent.Protocol.BtHome;
using CaptureAgent.Protocol.Probes;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Instruments;

/// <summary>The advertisements of one BTHome device; one of its objects is the reading.</summary>
/// <param name="pick">The reading of an advertisement; null if it has none, such as one that tells of a button.</param>
internal sealed class BtHomeStream<TReading>(DeviceOptions device, Func<List<BtHomeObject>, TReading?> pick) : IReadingStream<TReading>
    where TReading : struct
{
    private readonly BtHomeReceiver receiver = device.Key is { } key
        ? new BtHomeReceiver(Convert.FromHexString(key), Convert.FromHexString(device.Connection!.Address!.Replace(":", "", StringComparison.Ordinal)))
        : new BtHomeReceiver();

    private readonly List<BtHomeObject> objects = [];

    public int? BatteryPercent { get; private set; }

    public bool TryTake(string? source, ref ReadOnlySpan<byte> bytes, out TReading reading, out LineFault fault)
    {
        (reading, fault) = (default, LineFault.None);
        if (bytes.IsEmpty || source != BluetoothNeeds.BtHomeServiceData)
            return false;
        fault = receiver.Take(bytes, objects);
        bytes = default;
        foreach (var one in objects)
        {
            if (one.Id == BtHomeObject.Battery)
                BatteryPercent = (int)one.Value;
        }

        if (fault != LineFault.None)
            return true;
        if (pick(objects) is not { } picked)
            return false;
        reading = picked;
        return true;
    }

    // Advertisements are whole; their counters go on.
    public void Reset()
    {
    }
}

/// <summary>Which object of a BTHome advertisement is the reading.</summary>
internal static class BtHomePicks
{
    public static ProbeReading? Temperature(List<BtHomeObject> objects)
    {
        foreach (var id in BtHomeObject.Temperatures)
        {
            foreach (var one in objects)
            {
                if (one.Id == id && ProbeReading.TryMake(one.Value, StepOf(id), isFahrenheit: false, out var reading))
                    return reading;
            }
        }

        return null;
    }

    public static ScaleReading? Mass(List<BtHomeObject> objects)
    {
        foreach (var one in objects)
        {
            if (one.Id is BtHomeObject.MassKilograms or BtHomeObject.MassPounds)
            {
                var unit = one.Id == BtHomeObject.MassKilograms ? MassUnit.Kilogram : MassUnit.Pound;
                return new ScaleReading(LoadRange.Within, one.Value, unit, Stability.Unknown, WeightMark.Unknown, 0.01m);
            }
        }

        return null;
    }

    private static decimal StepOf(byte id) => id switch { 0x02 => 0.01m, 0x45 => 0.1m, 0x58 => 0.35m, _ => 1m };
}
