namespace CaptureAgent.Agent.Links.Serial;

/// <summary>Something to do in even steps. A step that was missed is left out, not made up for.</summary>
internal sealed class Cadence(TimeSpan period, TimeProvider time)
{
    private readonly long started = time.GetTimestamp();
    private TimeSpan due = TimeSpan.Zero;

    /// <summary>Until the next step; zero or less when it is due.</summary>
    public TimeSpan Remaining => due - time.GetElapsedTime(started);

    /// <summary>True once per step, when it is due.</summary>
    public bool TryTake()
    {
        var now = time.GetElapsedTime(started);
        if (now < due)
            return false;
        due = now - due < period ? due + period : now + period;
        return true;
    }
}
