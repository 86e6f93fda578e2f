using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Text.Json;

namespace CaptureAgent.Hardware.Bench;

/// <summary>The real agent: its commands, and its round with the events that it prints.</summary>
internal sealed partial class Agent(string[] command, string folder)
{
    private const int Terminate = 15;

    private readonly List<JsonElement> events = [];
    private Process? round;

    /// <summary>Runs a command to its end; gives what it printed.</summary>
    public async Task<string> DoAsync(params string[] arguments)
    {
        using var process = Start(arguments);
        var text = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        return process.ExitCode == 0 ? text : throw new InvalidOperationException($"capture-agent {string.Join(' ', arguments)}: exit code {process.ExitCode}. {text}");
    }

    public void Run()
    {
        round = Start("run", "--verbose", "--events", "-");
        _ = ReadAsync(round);
    }

    /// <summary>Asks it to end; gives its exit code.</summary>
    public async Task<int> StopAsync()
    {
        _ = Signal(round!.Id, Terminate);
        await round.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(20));
        return round.ExitCode;
    }

    /// <summary>Whether it runs and has this device open.</summary>
    public bool HasOpen(string device)
    {
        try
        {
            return round is { HasExited: false } && Directory.GetFileSystemEntries($"/proc/{round.Id}/fd").Any(one => new FileInfo(one).LinkTarget == device);
        }
        catch (IOException)
        {
            // It has just ended.
            return false;
        }
    }

    public int Count
    {
        get
        {
            lock (events)
                return events.Count;
        }
    }

    public int CountOf(int from, Func<JsonElement, bool> wanted)
    {
        lock (events)
            return events.Skip(from).Count(wanted);
    }

    /// <summary>The first event from this place on that is wanted.</summary>
    /// <exception cref="TimeoutException">It did not come.</exception>
    public async Task<JsonElement> WaitAsync(int from, string what, Func<JsonElement, bool> wanted, double seconds)
    {
        var started = Stopwatch.StartNew();
        while (started.Elapsed.TotalSeconds < seconds)
        {
            lock (events)
            {
                for (var i = from; i < events.Count; i++)
                {
                    if (wanted(events[i]))
                        return events[i];
                }
            }

            if (round is { HasExited: true })
                throw new TimeoutException($"the agent ended with {round.ExitCode} while this was waited for: {what}");
            await Task.Delay(20);
        }

        throw new TimeoutException($"not within {seconds:0} s: {what}");
    }

    public static string Text(JsonElement one, string key) =>
        one.TryGetProperty(key, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString()! : "";

    public static Func<JsonElement, bool> DeviceIs(string device, string state) =>
        one => Text(one, "event") == "device" && Text(one, "device") == device && Text(one, "state") == state;

    private Process Start(params string[] arguments)
    {
        var start = new ProcessStartInfo(command[0], [.. command[1..], .. arguments]) { WorkingDirectory = folder, RedirectStandardOutput = true };
        return Process.Start(start) ?? throw new InvalidOperationException($"{command[0]} did not start.");
    }

    private async Task ReadAsync(Process process)
    {
        while (await process.StandardOutput.ReadLineAsync() is { } line)
        {
            Console.WriteLine($"  {line}");
            using var document = JsonDocument.Parse(line);
            lock (events)
                events.Add(document.RootElement.Clone());
        }
    }

    [LibraryImport("libc", EntryPoint = "kill", SetLastError = true)]
    private static partial int Signal(int process, int signal);
}
