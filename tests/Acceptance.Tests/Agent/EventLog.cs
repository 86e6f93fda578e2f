using Xunit;

namespace CaptureAgent.Acceptance.Tests.Agent;

/// <summary>All that the agent has printed so far, and a place in it: what was waited for is not waited for again.</summary>
internal sealed class EventLog
{
    private readonly Lock gate = new();
    private readonly List<AgentEvent> events = [];
    private TaskCompletionSource more = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private Exception? fault;
    private bool ended;
    private int place;

    public IReadOnlyList<AgentEvent> All
    {
        get
        {
            lock (gate)
                return [.. events];
        }
    }

    public IReadOnlyList<AgentEvent> Weighings => [.. All.Where(one => one.Name == "weighing")];

    public void Add(AgentEvent one) => Change(() => events.Add(one));

    /// <summary>Nothing more comes.</summary>
    /// <param name="because">Null: the output was closed.</param>
    public void End(Exception? because) => Change(() => (ended, fault) = (true, because));

    /// <summary>Waits for the next event like this; those before it are passed over.</summary>
    /// <exception cref="TimeoutException">It does not come, or cannot come any more; says what came instead.</exception>
    public async Task<AgentEvent> NextAsync(string what, Func<AgentEvent, bool> isIt, TimeSpan limit)
    {
        var deadline = TimeProvider.System.GetTimestamp();
        while (true)
        {
            Task wait;
            lock (gate)
            {
                for (; place < events.Count; place++)
                {
                    if (isIt(events[place]))
                        return events[place++];
                }

                if (ended)
                    throw new TimeoutException($"The output ended before {what} came. {fault?.Message}{Told()}");
                wait = more.Task;
            }

            var left = limit - TimeProvider.System.GetElapsedTime(deadline);
            if (left <= TimeSpan.Zero)
                throw new TimeoutException($"No {what} within {limit.TotalSeconds:0} s.{Told()}");
            await Task.WhenAny(wait, Task.Delay(left, TestContext.Current.CancellationToken));
            TestContext.Current.CancellationToken.ThrowIfCancellationRequested();
        }
    }

    /// <summary>What has come until now is not waited for any more.</summary>
    public void PassOver()
    {
        lock (gate)
            place = events.Count;
    }

    private string Told() => "\nWhat came:\n" + string.Join('\n', All);

    private void Change(Action change)
    {
        TaskCompletionSource old;
        lock (gate)
        {
            change();
            (old, more) = (more, new(TaskCreationOptions.RunContinuationsAsynchronously));
        }

        old.TrySetResult();
    }
}
