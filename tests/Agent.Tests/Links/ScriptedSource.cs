using System.Threading.Channels;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Tests.Links;

/// <summary>A device that is there or not as the test says.</summary>
internal sealed class ScriptedSource : ISessionSource
{
    private volatile LinkException? fault = new(LinkCause.Absent, "It is absent.", "Plug it in.");
    private volatile TaskCompletionSource lost = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private int attempts, open;

    public int Attempts => Volatile.Read(ref attempts);

    /// <summary>Sessions that were opened and not yet closed.</summary>
    public int OpenNow => Volatile.Read(ref open);

    /// <summary>Each session is lost as soon as it listens.</summary>
    public bool DiesAtOnce { get; set; }

    public void Plug()
    {
        lost = new(TaskCreationOptions.RunContinuationsAsynchronously);
        fault = null;
    }

    public void Fail(string reason, bool isAbsence = false)
    {
        fault = new(LinkCause.Absent, reason, "Mend it.") { IsAbsence = isAbsence };
        lost.TrySetException(new LinkException(LinkCause.Lost, "It was lost.", "Plug it in."));
    }

    /// <summary>The session ends as a watchdog's does.</summary>
    public void FallSilent()
    {
        var silent = lost;
        lost = new(TaskCreationOptions.RunContinuationsAsynchronously);
        silent.SetResult();
    }

    public Task<ISession> OpenAsync(bool afterSilence, CancellationToken stop)
    {
        Interlocked.Increment(ref attempts);
        if (fault is { } reason)
            throw reason;
        Interlocked.Increment(ref open);
        return Task.FromResult<ISession>(new Session(this, lost.Task));
    }

    private sealed class Session(ScriptedSource source, Task lost) : ISession
    {
        public string? Remark => null;

        public Task ListenAsync(ChannelWriter<TraceRecord> output, CancellationToken stop) =>
            source.DiesAtOnce ? Task.FromException(new LinkException(LinkCause.Lost, "It was lost.", "Plug it in.")) : lost.WaitAsync(stop);

        public ValueTask DisposeAsync()
        {
            Interlocked.Decrement(ref source.open);
            return ValueTask.CompletedTask;
        }
    }
}
