using System.Diagnostics;
using System.Text;
using System.Text.Json;
using CaptureAgent.Acceptance.Tests.Bench;
using Xunit;

namespace CaptureAgent.Acceptance.Tests.Agent;

/// <summary><c>capture-agent run --events -</c> as a process; ends with the test at the latest.</summary>
internal sealed class RunningAgent : IAsyncDisposable
{
    /// <summary>Long: several agents start at once, on a machine that may be slow.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(180);

    private readonly Process process;
    private readonly StringBuilder errors = new();
    private readonly Task reading;
    private readonly Action<AgentEvent, RunningAgent>? whenRead;
    private volatile bool closing;

    /// <param name="whenRead">Called by the thread that reads, the moment a line is there.</param>
    public RunningAgent(string folder, IReadOnlyList<string> arguments, IReadOnlyList<string>? wrapper = null, Action<AgentEvent, RunningAgent>? whenRead = null)
    {
        this.whenRead = whenRead;
        process = Process.Start(AgentProgram.Start(folder, wrapper ?? [], ["run", "--events", "-", .. arguments]))!;
        process.StandardInput.Close();
        reading = Task.WhenAll(Task.Run(ReadEvents), ReadErrorsAsync());
    }

    public EventLog Log { get; } = new();

    public int Id => process.Id;

    public string Errors
    {
        get
        {
            lock (errors)
                return errors.ToString();
        }
    }

    public Task<AgentEvent> NextAsync(string what, Func<AgentEvent, bool> isIt) => Log.NextAsync(what, isIt, Patience);

    /// <summary>Waits until the agent says that it is ready.</summary>
    public Task<AgentEvent> ReadyAsync() => NextAsync("ready", one => one.Name == "ready");

    /// <summary>SIGKILL: no chance to write anything more.</summary>
    public void Kill() => process.Kill();

    /// <summary>The pipe is closed as soon as one more event is read: its reader has gone.</summary>
    public void CloseOutput() => closing = true;

    /// <summary>SIGTERM, as a service manager sends it.</summary>
    /// <returns>The exit code, and how long the agent took.</returns>
    public async Task<(int Code, TimeSpan Took)> TerminateAsync()
    {
        var started = TimeProvider.System.GetTimestamp();
        Libc.Terminate(process.Id);
        await EndAsync();
        return (process.ExitCode, TimeProvider.System.GetElapsedTime(started));
    }

    /// <summary>Waits until the process has ended and all it printed is read.</summary>
    public async Task EndAsync()
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        limit.CancelAfter(Patience);
        await process.WaitForExitAsync(limit.Token);
        await reading.WaitAsync(limit.Token);
    }

    public async ValueTask DisposeAsync()
    {
        if (!process.HasExited)
            process.Kill(entireProcessTree: true);
        await reading.WaitAsync(Patience);
        process.Dispose();
    }

    private void ReadEvents()
    {
        try
        {
            while (!closing && process.StandardOutput.ReadLine() is { } line)
            {
                var one = new AgentEvent(line);
                whenRead?.Invoke(one, this);
                Log.Add(one);
            }

            // By the thread that reads: a stream in use would not be closed.
            process.StandardOutput.Close();
            Log.End(null);
        }
        catch (Exception closed) when (closed is JsonException or IOException or ObjectDisposedException or InvalidOperationException)
        {
            Log.End(closed);
        }
    }

    private async Task ReadErrorsAsync()
    {
        while (await process.StandardError.ReadLineAsync() is { } line)
        {
            lock (errors)
                errors.AppendLine(line);
        }
    }
}
