using System.CommandLine;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.FrameFinding;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Protocol.FrameFinding;
using Microsoft.Extensions.Logging.Abstractions;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>devices</c>: which instruments there are; <c>--listen</c>: where one of them puts its value.</summary>
internal static class DevicesCommand
{
    public static Command Create(Surroundings around)
    {
        var listen = new Option<string?>("--listen") { HelpName = "DEVICE", Description = "Show the bytes of this device that change, and find where its value stands, with known masses." };
        var replay = new Option<string?>("--replay") { HelpName = "TRACE", Description = "With --listen: look in a recording in place of the device." };
        var known = new Option<string[]>("--known")
        {
            HelpName = "KNOWN@SECONDS",
            Description = "With --replay: so many grams (for a probe °C) lay still for 5 s, from this second of the recording on. Repeat it; 0 is the empty pan.",
            AllowMultipleArgumentsPerToken = true,
        };
        var command = new Command("devices", """
            Lists the instruments of station.json and what is plugged in; with --listen, finds where a device that nobody has described puts its value.
            Stop a running agent first: it holds the devices.

            Examples:
              capture-agent devices
              capture-agent devices --listen scale
              capture-agent devices --listen scale --replay masses.ndjson --known 0@2 --known 100@15 --known 500@30
            """) { listen, replay, known };
        var arguments = new StationArguments(command);
        command.SetAction(async (parsed, stop) =>
        {
            var trace = parsed.GetValue(replay);
            var marks = parsed.GetValue(known) ?? [];
            var name = parsed.GetValue(listen);
            if (name is null && (trace is not null || marks.Length > 0) || trace is null && marks.Length > 0)
                throw new InputException("--replay needs --listen DEVICE, and --known needs --replay TRACE.");
            var station = arguments.Read(parsed, around, devicesAreOpened: name is not null && trace is null, framesAreProven: false);
            var output = parsed.InvocationConfiguration.Output;
            if (name is null)
            {
                await output.WriteAsync(DeviceList.Text(station.Options));
                return ExitCode.Done;
            }

            var device = Find(station.Options, name);
            if (trace is not null)
                await ReplayAsync(station.Options, device, around.FullPath(trace), marks, output);
            else
                await ListenAsync(device, around, output, stop);
            return ExitCode.Done;
        });
        return command;
    }

    private static DeviceOptions Find(StationOptions station, string name) =>
        station.Devices.FirstOrDefault(device => device.Id == name && device.Role != "scanner")
            ?? throw new InputException($"station.json has no scale and no probe '{name}'; it has {string.Join(", ", station.Devices.Where(device => device.Role != "scanner").Select(device => device.Id))}.");

    private static async Task ReplayAsync(StationOptions station, DeviceOptions device, string path, string[] marks, TextWriter output)
    {
        if (!KnownMarks.TryRead(marks, out var times, out var fault))
            throw new InputException($"--known: {fault}");
        using var file = TraceReader.Open(path);
        var samples = TraceListening.Read(new TraceReader(file, path, [.. station.Devices.Select(one => one.Id)]), device.Id);
        if (marks.Length == 0)
        {
            await ShowAsync(samples, output);
            return;
        }

        if (KnownMarks.Missing(times, device.Role == "probe") is { } missing)
            throw new InputException($"--known: {missing}");
        await output.WriteAsync(Report(device, samples, times));
    }

    // Without anything known the bytes that change are all there is to show, with the seconds that --known wants.
    private static async Task ShowAsync(List<FrameSample> samples, TextWriter output)
    {
        var changing = new ChangingBytes();
        foreach (var sample in samples)
        {
            if (changing.Show(sample.Source, sample.Frame.Span) is { } shown)
                await output.WriteLineAsync(FormattableString.Invariant($"{sample.Seconds,8:0.0} s  {shown}"));
        }
    }

    private static async Task ListenAsync(DeviceOptions device, Surroundings around, TextWriter output, CancellationToken stop)
    {
        // Everything that the device sends is wanted, not only what was described before; and what is said is read at once.
        using var unbuffered = around.TextOutput();
        unbuffered.AutoFlush = true;
        using var direct = TextWriter.Synchronized(unbuffered);
        using var factory = new LinkFactory(around.Time, NullLogger.Instance);
        var link = factory.Create(Undescribed(device));
        var listening = new LiveListening(link, device.Role == "probe", around.Input, direct, around.Time);
        var times = await listening.RunAsync(stop);
        if (KnownMarks.Missing(times, device.Role == "probe") is { } missing)
            throw new InputException(missing);
        await output.WriteAsync(Report(device, listening.Samples, times));
    }

    private static DeviceOptions Undescribed(DeviceOptions device)
    {
        if (device.Frame is { } frame)
            frame.Characteristic = frame.Start is null ? null : frame.Characteristic;
        return device;
    }

    private static string Report(DeviceOptions device, IReadOnlyList<FrameSample> samples, IReadOnlyList<KnownTime> times) =>
        FrameReport.Text(device, FrameFinder.Find(samples, times, device.Role == "probe", device.CapacityGrams));
}
