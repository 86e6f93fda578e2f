using System.Buffers.Binary;
using CaptureAgent.Simulators.Bluetooth.Peripheral;

namespace CaptureAgent.Hardware.Bench;

/// <summary>What lies on the pan and how warm the bowl is, sent as the radio scale and the radio probe of this bench send it.</summary>
internal sealed class BowlAndPan(Pan pan, GattPeripheral scale, GattPeripheral probe)
{
    public const string ScaleService = "fff0", ScaleValue = "fff1", ThermometerService = "1809", Temperature = "2a1c";

    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(100);

    private const int ProbeEvery = 10;

    public async Task SendAsync(CancellationToken stop)
    {
        using var timer = new PeriodicTimer(Interval);
        for (var turn = 0; await timer.WaitForNextTickAsync(stop); turn++)
        {
            scale.Notify(ScaleValue, Frame(pan.Show(turn)));
            if (turn % ProbeEvery == 0)
                probe.Notify(Temperature, HealthThermometer(398));
        }
    }

    /// <summary>A frame of this bench: A5, tenths of a gram as a signed number of 16 bits, a byte of state, the sum of all.</summary>
    public static byte[] Frame(int tenths)
    {
        byte[] frame = [0xA5, 0, 0, 0, 0];
        BinaryPrimitives.WriteInt16LittleEndian(frame.AsSpan(1), (short)tenths);
        frame[^1] = (byte)((frame[0] + frame[1] + frame[2] + frame[3]) & 0xFF);
        return frame;
    }

    // Temperature Measurement: flags, then an IEEE 11073-20601 FLOAT of 24 and 8 bits (Health Thermometer Service 1.0).
    private static byte[] HealthThermometer(int tenths) => [0, (byte)(tenths & 0xFF), (byte)(tenths >> 8 & 0xFF), (byte)(tenths >> 16 & 0xFF), 0xFF];
}
