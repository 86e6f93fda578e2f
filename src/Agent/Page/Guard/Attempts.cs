namespace CaptureAgent.Agent.Page.Guard;

/// <summary>How often somebody may try a pairing code: so few times in so long a time from one address, and from all together.</summary>
internal sealed class Attempts(TimeProvider time)
{
    public const int FromOneAddress = 5, FromAll = 20;

    public static readonly TimeSpan Window = TimeSpan.FromMinutes(1);

    private readonly Lock gate = new();

    private readonly Queue<(DateTimeOffset At, string Address)> tries = new();

    /// <returns>Null if one more is allowed, and it is counted; else how long to wait.</returns>
    public TimeSpan? Take(string address)
    {
        lock (gate)
        {
            var now = time.GetUtcNow();
            while (tries.TryPeek(out var oldest) && oldest.At <= now - Window)
                tries.Dequeue();
            var own = tries.Where(one => one.Address == address).ToList();
            if (own.Count >= FromOneAddress)
                return own[0].At + Window - now;
            if (tries.Count >= FromAll)
                return tries.Peek().At + Window - now;
            tries.Enqueue((now, address));
            return null;
        }
    }
}
