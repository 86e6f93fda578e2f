namespace CaptureAgent.Agent.Round;

/// <summary>The codes that were read and not yet used.</summary>
internal sealed class Identity
{
    public static readonly TimeSpan Waits = TimeSpan.FromSeconds(60);

    private static readonly TimeSpan SameScan = TimeSpan.FromSeconds(5);

    private string? last;
    private DateTimeOffset lastAt;

    /// <summary>The code that waits for a load.</summary>
    public (string Code, DateTimeOffset At)? Waiting { get; private set; }

    public DateTimeOffset? Expires => Waiting?.At + Waits;

    /// <summary>True for a scanner that reads the same card on and on: one scan, however long it lies there.</summary>
    public bool IsRepeat(string code, DateTimeOffset at)
    {
        var repeat = code == last && at - lastAt < SameScan;
        last = code;
        lastAt = at;
        return repeat;
    }

    public void Wait(string code, DateTimeOffset at) => Waiting = (code, at);

    /// <summary>Takes the waiting code, if there is one.</summary>
    public (string Code, DateTimeOffset At)? Take()
    {
        var taken = Waiting;
        Waiting = null;
        return taken;
    }
}
