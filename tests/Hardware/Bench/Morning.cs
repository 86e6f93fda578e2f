using System.Diagnostics;
using System.Globalization;
using CaptureAgent.Simulators.Bluetooth.Peripheral;
using CaptureAgent.Simulators.Instruments.Keyboards;

namespace CaptureAgent.Hardware.Bench;

/// <summary>
/// Short rounds on real drivers: one with a radio scale, a radio probe and a typing scanner, with the Bluetooth service killed between two chicks;
/// then one with a HID scale, a scale and a probe on serial lines, a USB keyboard, and a lamp on the lines of a GPIO chip.
/// </summary>
internal static class Morning
{
    private const string Bus = "unix:path=/run/dbus/system_bus_socket", Folder = "/tmp/station";

    private const int Weighings = 4;

    /// <summary>What a reconnection may take once service and device are there again; what the emulated service takes to start is the host's affair.</summary>
    private const double ReconnectSeconds = 15;

    public static async Task<int> RunAsync(string[] command)
    {
        var tally = new Tally();
        var agent = new Agent(command, Folder);
        var weighed = new List<(string Chick, string Grams)>();
        await ByRadioAsync(agent, tally, weighed);
        await ByWireAsync(agent, tally, weighed);
        await tally.CheckAsync("rows", () => RowsAsync(agent, weighed));
        return tally.Bad == 0 ? 0 : 1;
    }

    private static async Task ByRadioAsync(Agent agent, Tally tally, List<(string Chick, string Grams)> weighed)
    {
        using var over = new CancellationTokenSource();
        using var service = new Bluetoothd();
        service.Start();
        using var scanner = new TypingScanner("bench scanner");
        var scale = new GattPeripheral(Bus, "hci1", "bench scale", new SimulatedService(BowlAndPan.ScaleService, BowlAndPan.ScaleValue, "notify"));
        var probe = new GattPeripheral(Bus, "hci3", "bench probe", new SimulatedService(BowlAndPan.ThermometerService, BowlAndPan.Temperature, "indicate"));
        var pan = new Pan(Station.RadioScale);
        _ = scale.RunAsync(over.Token);
        _ = probe.RunAsync(over.Token);
        _ = new BowlAndPan(pan, scale, probe).SendAsync(over.Token);
        while (scanner.Path is null)
            await Task.Delay(50);
        Station.WriteRadio(Folder, scanner.Path);

        var round = new Round(agent, weighed, scanner.Scan, pan);
        await tally.CheckAsync("import", () => agent.DoAsync("import", "register", Station.Register));
        await tally.CheckAsync("connect", round.ConnectAsync);
        await tally.CheckAsync("weighing", () => round.WeighAsync(pan, "BX-0001", 1204));
        await tally.CheckAsync("restart", () => RestartAsync(agent, service, scale));
        await tally.CheckAsync("weighing-after-restart", () => round.WeighAsync(pan, "BX-0002", 868));
        await tally.CheckAsync("stop", round.StopAsync);
        await over.CancelAsync();
    }

    private static async Task ByWireAsync(Agent agent, Tally tally, List<(string Chick, string Grams)> weighed)
    {
        using var board = new GpioBoard();
        var lamp = new Lamp(board);
        var (hid, serial) = (new Pan(Station.HidScale), new Pan(Station.SerialScale));
        UsbBench.Play(agent, hid, serial);
        Station.WriteWired(Folder);
        var round = new Round(agent, weighed, UsbBench.Scan, hid, serial);
        await tally.CheckAsync("wired-connect", round.ConnectAsync);
        var from = DateTime.UtcNow;
        await tally.CheckAsync("hid-weighing", () => round.WeighAsync(hid, "BX-0003", 1017));
        await tally.CheckAsync("lamp", () => lamp.CheckAcceptedAsync(from));
        await tally.CheckAsync("serial-weighing", () => round.WeighAsync(serial, "BX-0004", 943));
        await tally.CheckAsync("wired-stop", round.StopAsync);
    }

    /// <summary>The service dies and comes back; the figures are from its return, and its device's, to the first reading.</summary>
    private static async Task RestartAsync(Agent agent, Bluetoothd service, GattPeripheral device)
    {
        var from = agent.Count;
        service.Kill();
        foreach (var one in new[] { "scale", "probe" })
            await agent.WaitAsync(from, $"{one} down", Agent.DeviceIs(one, "down"), 20);
        await Task.Delay(3000);
        service.Start();
        var watch = Stopwatch.StartNew();
        while (!device.IsOnTheAir)
            await Task.Delay(20);
        var onTheAir = watch.Elapsed.TotalSeconds;
        await agent.WaitAsync(from, "scale up", Agent.DeviceIs("scale", "up"), 120);
        var seconds = watch.Elapsed.TotalSeconds;
        Figure($"scale read again {seconds:0.0} s after bluetoothd was started, {seconds - onTheAir:0.0} s after the device was on the air");
        await agent.WaitAsync(from, "probe up", Agent.DeviceIs("probe", "up"), 120);
        Figure($"probe read again {watch.Elapsed.TotalSeconds:0.0} s after bluetoothd was started");
        var told = agent.CountOf(from, one => Agent.Text(one, "event") == "device" && Agent.Text(one, "device") == "scale");
        if (told != 2)
            throw new InvalidOperationException($"{told} events of the scale instead of down and up");
        if (seconds - onTheAir > ReconnectSeconds)
            throw new InvalidOperationException($"the scale was read {seconds - onTheAir:0.0} s after it was on the air; {ReconnectSeconds} are allowed");
        // The liner lies there as before; the scale shows it again before the next chick comes.
        await Task.Delay(3000);
    }

    private static async Task RowsAsync(Agent agent, List<(string Chick, string Grams)> weighed)
    {
        var rows = await agent.DoAsync("export", "weights");
        foreach (var (chick, grams) in weighed)
        {
            if (!rows.Split('\n').Any(line => line.StartsWith(chick + ",", StringComparison.Ordinal) && line.Contains($",{grams},", StringComparison.Ordinal) && line.Contains("accepted", StringComparison.Ordinal)))
                throw new InvalidOperationException($"no row of {chick} with {grams}:\n{rows}");
        }

        if (weighed.Count != Weighings)
            throw new InvalidOperationException($"{weighed.Count} weighings instead of {Weighings}");
    }

    private static void Figure(FormattableString text) => Console.WriteLine("FIGURE " + text.ToString(CultureInfo.InvariantCulture));
}
