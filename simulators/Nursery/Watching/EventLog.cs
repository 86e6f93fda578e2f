namespace CaptureAgent.Simulators.Nursery.Watching;

/// <summary>All events so far, and waiting for the next that fits. Safe for several threads.</summary>
internal sealed class EventLog(TimeProvider time)
{
    private readonly Lock gate = new();
    private readonly List<AgentEvent> events = [];
    private TaskCompletionSource arrival = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>How many there are: a place from which to wait.</summary>
    public int Count
    {
        get
        {
            lock (gate)
                return events.Count;
        }
    }

    /// <summary>All so far.</summary>
    public IReadOnlyList<AgentEvent> All
    {
        get
        {
            lock (gate)
                return [.. events];
        }
    }

    public void Add(AgentEvent one)
    {
        TaskCompletionSource waiting;
        lock (gate)
        {
            events.Add(one);
            (waiting, arrival) = (arrival, new(TaskCreationOptions.RunContinuationsAsynchronously));
        }

        waiting.SetResult();
    }

    /// <summary>The first event from a place on that fits; null when none came in time.</summary>
    public async Task<AgentEvent?> WaitAsync(int from, Func<AgentEvent, bool> fits, TimeSpan limit, CancellationToken cancellationToken)
    {
        var deadline = Task.Delay(limit, time, cancellationToken);
        while (true)
        {
            Task next;
            lock (gate)
            {
                for (; from < events.Count; from++)
                {
                    if (fits(events[from]))
                        return events[from];
                }

                next = arrival.Task;
            }

            if (await Task.WhenAny(next, deadline) == deadline)
            {
                cancellationToken.ThrowIfCancellationRequested();
                return null;
            }
        }
    }
}
