using System.Text;
using CaptureAgent.Simulators.Bluetooth.StandIn;

namespace CaptureAgent.Simulators.Bluetooth;

/// <summary>A scale with an empty pan at 10 Hz and a probe at rest once a second, behind a stand-in for BlueZ.</summary>
public static class PlayedNursery
{
    public const string ScaleAddress = "C0:FF:EE:00:00:01", ProbeAddress = "C0:FF:EE:00:00:02", ScaleService = "fff0", ScaleValue = "fff1", Temperature = "2a1c";

    private const int ProbeEvery = 10;

    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(100);

    // 37.6 °C as an IEEE 11073-20601 FLOAT, after the flags (Health Thermometer Service 1.0).
    private static readonly byte[] Warm = [0, 0x78, 0x01, 0, 0xFF];

    public static SimulatedPeripheral NewScale() => new(ScaleAddress, new SimulatedCharacteristic(ScaleService, ScaleValue, ["notify"], []));

    public static SimulatedPeripheral NewProbe() => new(ProbeAddress, new SimulatedCharacteristic("1809", Temperature, ["indicate"], []));

    /// <summary>A line of a scale that sends text; it fits in one notification.</summary>
    public static byte[] Line(decimal grams) => Encoding.ASCII.GetBytes(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"ST,GS,+{grams,7:0.0} g\r\n"));

    /// <param name="bus">Address of the bus to play on.</param>
    public static async Task RunAsync(string bus, CancellationToken stop)
    {
        using var bluez = await BluezStandIn.StartAsync(bus);
        var (scale, probe) = (NewScale(), NewProbe());
        bluez.Add(scale);
        bluez.Add(probe);
        using var timer = new PeriodicTimer(Interval);
        try
        {
            for (var turn = 0; await timer.WaitForNextTickAsync(stop); turn++)
            {
                bluez.Notify(scale, ScaleValue, Line(0));
                if (turn % ProbeEvery == 0)
                    bluez.Notify(probe, Temperature, Warm);
            }
        }
        catch (OperationCanceledException)
        {
        }
    }
}
