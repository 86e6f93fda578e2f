using System.Threading.Channels;
using CaptureAgent.Agent.Links.Bluetooth.Proxies;
using Tmds.DBus.Protocol;

namespace CaptureAgent.Agent.Links.Bluetooth.Adapters;

/// <summary>Discovery on one adapter for all who want it: on while someone does, with pauses where it is not urgent, off while a connection is made.</summary>
/// <remarks>
/// An adapter that connects while it scans does both badly. Discovery that dies in silence is noticed by hearing nothing from anyone:
/// it is started anew, then the adapter is power-cycled (unless that would cut a connection that works), then <see cref="IsDeaf"/> is to be said aloud.
/// </remarks>
internal sealed class Discovery(AdapterProxy adapter, Hearing hearing, BluetoothTimings timings, TimeProvider time)
{
    private static readonly TimeSpan AfterRefusal = TimeSpan.FromSeconds(2);

    private readonly Lock gate = new();
    private readonly Channel<bool> turn = Channel.CreateBounded<bool>(1);
    private TaskCompletionSource pulse = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private TaskCompletionSource quiet = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private int full, spare, pauses, held;
    private bool isOn;

    /// <summary>Nothing was heard from anyone, and nothing that could be done about it has helped.</summary>
    public bool IsDeaf { get; private set; }

    /// <summary>A device has a working connection through this adapter, so that it is not power-cycled.</summary>
    public bool IsInUse => Volatile.Read(ref held) > 0;

    /// <summary>More than one device is looked for.</summary>
    public bool IsShared
    {
        get
        {
            lock (gate)
                return full + spare > 1;
        }
    }

    /// <summary>A connection works; until disposed.</summary>
    public IDisposable Hold()
    {
        Interlocked.Increment(ref held);
        return new Release(() => Interlocked.Decrement(ref held));
    }

    /// <summary>The adapter was off: whatever ran on it does not any more.</summary>
    public void Reset()
    {
        SetOn(false);
        Pulse();
    }

    /// <summary>Until disposed.</summary>
    /// <param name="urgent">Without a break; else now and then.</param>
    public IDisposable Want(bool urgent)
    {
        Count(urgent, 1);
        return new Release(() => Count(urgent, -1));
    }

    /// <summary>One connection is made at a time, with discovery off; until disposed.</summary>
    public async Task<IDisposable> PauseAsync(CancellationToken stop)
    {
        await turn.Writer.WriteAsync(true, stop);
        try
        {
            Task silence;
            lock (gate)
            {
                pauses++;
                silence = isOn ? quiet.Task : Task.CompletedTask;
            }

            Pulse();
            await silence.WaitAsync(timings.Calling, time, stop);
        }
        catch (TimeoutException)
        {
            // It does not answer to being stopped; the try to connect will show what else is wrong.
        }
        catch
        {
            Resume();
            throw;
        }

        return new Release(Resume);
    }

    /// <summary>Runs until the service ends.</summary>
    public async Task RunAsync(CancellationToken stop)
    {
        var cycle = time.GetTimestamp();
        while (!stop.IsCancellationRequested)
        {
            Task changed;
            lock (gate)
                changed = pulse.Task;
            var (wanted, until) = Plan(ref cycle);
            var done = wanted == isOn || await TrySwitchAsync(wanted, stop);
            var limit = done ? until : AfterRefusal;
            if (isOn && await hearing.LookAsync(adapter, this, stop) is { } next && (limit is null || next < limit))
                limit = next;
            await WaitAsync(changed, limit, stop);
        }
    }

    internal void SetDeaf(bool deaf) => IsDeaf = deaf;

    /// <summary>Off and on again: the filter dies with some failures, so that it is set anew each time.</summary>
    internal async Task RestartAsync(CancellationToken stop)
    {
        await TrySwitchAsync(false, stop);
        await TrySwitchAsync(true, stop);
    }

    private (bool Wanted, TimeSpan? Until) Plan(ref long cycle)
    {
        lock (gate)
        {
            if (pauses > 0 || full + spare == 0)
                return (false, null);
            if (full > 0)
                return (true, null);
            var period = timings.SpareOn + timings.SpareOff;
            var into = TimeSpan.FromTicks(time.GetElapsedTime(cycle).Ticks % period.Ticks);
            return into < timings.SpareOn ? (true, timings.SpareOn - into) : (false, period - into);
        }
    }

    private async Task<bool> TrySwitchAsync(bool on, CancellationToken stop)
    {
        var done = true;
        if (isOn)
            hearing.End();
        try
        {
            if (on)
            {
                await adapter.SetDiscoveryFilterAsync(stop);
                await adapter.StartDiscoveryAsync(stop);
                hearing.Begin();
            }
            else
            {
                await adapter.StopDiscoveryAsync(stop);
            }
        }
        catch (DBusErrorReplyException)
        {
            // What is not running cannot be stopped, which is as well; what cannot be started is tried again.
            done = !on;
        }
        catch (TimeoutException)
        {
            done = false;
        }

        SetOn(on && done);
        return done;
    }

    private void SetOn(bool on)
    {
        lock (gate)
        {
            isOn = on;
            if (!on)
                quiet.TrySetResult();
            else if (quiet.Task.IsCompleted)
                quiet = new(TaskCreationOptions.RunContinuationsAsynchronously);
        }
    }

    private async Task WaitAsync(Task changed, TimeSpan? limit, CancellationToken stop)
    {
        try
        {
            await changed.WaitAsync(limit is { } some ? some > TimeSpan.Zero ? some : TimeSpan.FromMilliseconds(1) : Timeout.InfiniteTimeSpan, time, stop);
        }
        catch (TimeoutException)
        {
        }
    }

    private void Count(bool urgent, int by)
    {
        lock (gate)
        {
            if (urgent)
                full += by;
            else
                spare += by;
        }

        Pulse();
    }

    private void Resume()
    {
        lock (gate)
            pauses--;
        turn.Reader.TryRead(out _);
        Pulse();
    }

    private void Pulse()
    {
        TaskCompletionSource past;
        lock (gate)
        {
            past = pulse;
            pulse = new(TaskCreationOptions.RunContinuationsAsynchronously);
        }

        past.TrySetResult();
    }

    private sealed class Release(Action undo) : IDisposable
    {
        private Action? undo = undo;

        public void Dispose() => Interlocked.Exchange(ref undo, null)?.Invoke();
    }
}
