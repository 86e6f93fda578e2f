using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using CaptureAgent.Simulators.Bluetooth.Peripheral;
using CaptureAgent.Simulators.Instruments.Keyboards;

namespace CaptureAgent.Hardware.Bench;

/// <summary>A short round on real drivers: a radio scale, a radio probe and a typing scanner, with the Bluetooth service killed between two chicks.</summary>
/// <remarks>Each check ends with a line RESULT NAME 0 or 1, which the stage counts.</remarks>
internal static class Morning
{
    private const string Bus = "unix:path=/run/dbus/system_bus_socket", Folder = "/tmp/station";

    /// <summary>What the figure of a reconnection may be, from the service's return.</summary>
    private const double ReconnectSeconds = 15;

    public static async Task<int> RunAsync(string[] command)
    {
        Directory.CreateDirectory(Folder);
        using var over = new CancellationTokenSource();
        using var service = new Bluetoothd();
        service.Start();
        using var scanner = new TypingScanner("bench scanner");
        var scale = new GattPeripheral(Bus, "hci1", "bench scale", new SimulatedService(BowlAndPan.ScaleService, BowlAndPan.ScaleValue, "notify"));
        var probe = new GattPeripheral(Bus, "hci3", "bench probe", new SimulatedService(BowlAndPan.ThermometerService, BowlAndPan.Temperature, "indicate"));
        var bench = new BowlAndPan(scale, probe);
        _ = scale.RunAsync(over.Token);
        _ = probe.RunAsync(over.Token);
        _ = bench.SendAsync(over.Token);
        while (scanner.Path is null)
            await Task.Delay(50);
        Station.Write(Folder, scanner.Path);

        var agent = new Agent(command, Folder);
        var round = new Round(agent, scanner, bench, service);
        var bad = 0;
        await Check("import", () => agent.DoAsync("import", "register", "chicks.csv"));
        await Check("connect", round.ConnectAsync);
        await Check("weighing", () => round.WeighAsync("BX-0001", 1204));
        await Check("restart", round.RestartAsync);
        await Check("weighing-after-restart", () => round.WeighAsync("BX-0002", 868));
        await Check("stop", round.StopAsync);
        await Check("rows", round.RowsAsync);
        await over.CancelAsync();
        return bad == 0 ? 0 : 1;

        async Task Check(string name, Func<Task> check)
        {
            var watch = Stopwatch.StartNew();
            try
            {
                await check();
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"RESULT {name} 0 in {watch.Elapsed.TotalSeconds:0.0} s"));
            }
#pragma warning disable CA1031 // Whatever it is, it is this check's result; the next are still run.
            catch (Exception failure)
#pragma warning restore CA1031
            {
                bad++;
                Console.WriteLine($"{name}: {failure.Message}");
                Console.WriteLine($"RESULT {name} 1");
            }
        }
    }

    private sealed class Round(Agent agent, TypingScanner scanner, BowlAndPan bench, Bluetoothd service)
    {
        private const int Liner = 82;

        private readonly List<(string Chick, string Grams)> weighed = [];

        public async Task ConnectAsync()
        {
            agent.Run();
            foreach (var device in new[] { "scanner", "scale", "probe" })
                await agent.WaitAsync(0, $"{device} up", Agent.DeviceIs(device, "up"), 120);
            await agent.WaitAsync(0, "a temperature", static one => Agent.Text(one, "event") == "probe", 20);
            await Task.Delay(2000);
            var from = agent.Count;
            bench.Tenths = Liner;
            await agent.WaitAsync(from, "the tare of the liner", static one => Agent.Text(one, "event") == "tare", 30);
        }

        public async Task WeighAsync(string chick, int tenths)
        {
            var from = agent.Count;
            scanner.Scan(chick);
            await agent.WaitAsync(from, $"the scan of {chick}", one => Agent.Text(one, "event") == "scan" && Agent.Text(one, "code") == chick, 10);
            (bench.Tenths, bench.IsAlive) = (Liner + tenths, true);
            var weighing = await agent.WaitAsync(from, $"the weighing of {chick}", one => Agent.Text(one, "event") == "weighing", 60);
            if (Agent.Text(weighing, "chick") != chick || Agent.Text(weighing, "verdict") != "accepted")
                throw new InvalidOperationException($"not accepted: {weighing}");
            var grams = weighing.GetProperty("grams").GetDecimal();
            if (Math.Abs(grams - tenths / 10m) > 0.2m)
                throw new InvalidOperationException($"{grams} g instead of {tenths / 10m} g");
            weighed.Add((chick, grams.ToString("0.000", CultureInfo.InvariantCulture)));
            from = agent.Count;
            (bench.Tenths, bench.IsAlive) = (Liner, false);
            await agent.WaitAsync(from, "lifted", static one => Agent.Text(one, "event") == "lifted", 20);
        }

        /// <summary>The service dies and comes back; the figure is from its return to the first reading.</summary>
        public async Task RestartAsync()
        {
            var from = agent.Count;
            service.Kill();
            foreach (var device in new[] { "scale", "probe" })
                await agent.WaitAsync(from, $"{device} down", Agent.DeviceIs(device, "down"), 20);
            await Task.Delay(3000);
            service.Start();
            var watch = Stopwatch.StartNew();
            await agent.WaitAsync(from, "scale up", Agent.DeviceIs("scale", "up"), 120);
            var seconds = watch.Elapsed.TotalSeconds;
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"FIGURE scale up again {seconds:0.0} s after bluetoothd was started"));
            await agent.WaitAsync(from, "probe up", Agent.DeviceIs("probe", "up"), 120);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"FIGURE probe up again {watch.Elapsed.TotalSeconds:0.0} s after bluetoothd was started"));
            var told = agent.CountOf(from, one => Agent.Text(one, "event") == "device" && Agent.Text(one, "device") == "scale");
            if (told != 2)
                throw new InvalidOperationException($"{told} events of the scale instead of down and up");
            if (seconds > ReconnectSeconds)
                throw new InvalidOperationException($"the scale was back after {seconds:0.0} s; {ReconnectSeconds} are allowed");
            // The liner lies there as before; the scale shows it again before the next chick comes.
            await Task.Delay(3000);
        }

        public async Task StopAsync()
        {
            if (await agent.StopAsync() is not 0 and var code)
                throw new InvalidOperationException($"exit code {code}");
        }

        public async Task RowsAsync()
        {
            var rows = await agent.DoAsync("export", "weights");
            foreach (var (chick, grams) in weighed)
            {
                if (!rows.Split('\n').Any(line => line.StartsWith(chick + ",", StringComparison.Ordinal) && line.Contains($",{grams},", StringComparison.Ordinal) && line.Contains("accepted", StringComparison.Ordinal)))
                    throw new InvalidOperationException($"no row of {chick} with {grams}:\n{rows}");
            }

            if (weighed.Count != 2)
                throw new InvalidOperationException($"{weighed.Count} weighings instead of 2");
        }
    }
}
