using System.ComponentModel;
using System.Diagnostics;
using System.Runtime.InteropServices;

namespace CaptureAgent.Simulators.Nursery.Watching;

/// <summary>The real agent as child processes: one for each import, one for the round.</summary>
internal sealed partial class AgentProcess(FileInfo? executable, string folder, Narration narration)
{
    private const int Terminate = 15;
    private readonly Queue<string> lastErrors = new();
    private Process? running;
    private Task reading = Task.CompletedTask;

    /// <summary>Runs one command to its end and tells what it printed.</summary>
    /// <exception cref="DemoException">It did not end with 0.</exception>
    public async Task DoAsync(string[] arguments, CancellationToken cancellationToken)
    {
        using var process = Start(arguments);
        var output = process.StandardOutput.ReadToEndAsync(cancellationToken);
        var errors = process.StandardError.ReadToEndAsync(cancellationToken);
        await process.WaitForExitAsync(cancellationToken);
        foreach (var line in (await output).Split('\n', StringSplitOptions.RemoveEmptyEntries))
            narration.Say("agent", line.TrimEnd());
        if (process.ExitCode != 0)
            throw new DemoException($"capture-agent {string.Join(' ', arguments)} ended with {process.ExitCode}:{Environment.NewLine}{await errors}");
    }

    /// <summary>Starts the agent for the round; its events go to the log and, where they matter, are told.</summary>
    public void Run(string[] arguments, EventLog log)
    {
        running = Start(arguments);
        reading = Task.WhenAll(ReadEventsAsync(running.StandardOutput, log), ReadErrorsAsync(running.StandardError));
    }

    public bool HasEnded => running is null or { HasExited: true };

    /// <summary>Completes when the agent of the round ends, for whatever reason.</summary>
    public Task WaitForEndAsync() => running?.WaitForExitAsync() ?? Task.CompletedTask;

    /// <summary>The last lines of its log.</summary>
    public string LastErrors
    {
        get
        {
            lock (lastErrors)
                return string.Join(Environment.NewLine, lastErrors);
        }
    }

    /// <summary>Asks it to end, as a service manager does; gives its exit code, null where it had to be killed.</summary>
    public async Task<int?> StopAsync(TimeSpan patience)
    {
        if (running is null)
            return null;
        using var limit = new CancellationTokenSource(patience);
        try
        {
            if (!running.HasExited)
                _ = Signal(running.Id, Terminate);
            await running.WaitForExitAsync(limit.Token);
            await reading;
            return running.ExitCode;
        }
        catch (OperationCanceledException)
        {
            running.Kill(entireProcessTree: true);
            return null;
        }
        finally
        {
            running.Dispose();
            running = null;
        }
    }

    private Process Start(string[] arguments)
    {
        var start = new ProcessStartInfo { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true };
        if (executable is not null)
        {
            start.FileName = executable.FullName;
        }
        else
        {
            // The host that runs this program: an installation that is not on the path works too.
            start.FileName = Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..", "dotnet"));
            start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "capture-agent.dll"));
        }

        foreach (var argument in arguments)
            start.ArgumentList.Add(argument);
        try
        {
            return Process.Start(start) ?? throw new DemoException($"{start.FileName} could not be started.");
        }
        catch (Win32Exception trouble)
        {
            throw new DemoException($"{start.FileName} could not be started: {trouble.Message}");
        }
    }

    private async Task ReadEventsAsync(StreamReader output, EventLog log)
    {
        var formulaTold = false;
        while (await output.ReadLineAsync() is { } line)
        {
            if (AgentEvent.Parse(line) is not { } one)
                continue;
            // A probe speaks every second: its first settled reading is enough to watch.
            var isProbe = one.Name == "probe";
            if (one.Told is { } told && !(isProbe && formulaTold))
                narration.Say("agent", told);
            formulaTold |= isProbe && one.Told is not null;
            log.Add(one);
        }
    }

    private async Task ReadErrorsAsync(StreamReader errors)
    {
        while (await errors.ReadLineAsync() is { } line)
        {
            lock (lastErrors)
            {
                lastErrors.Enqueue(line);
                if (lastErrors.Count > 20)
                    lastErrors.Dequeue();
            }
        }
    }

    [LibraryImport("libc", EntryPoint = "kill", SetLastError = true)]
    private static partial int Signal(int process, int signal);
}
