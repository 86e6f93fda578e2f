namespace CaptureAgent.Agent.Tests.Hosting;

/// <summary>A wall clock that can be set, and a monotonic clock that cannot.</summary>
internal sealed class JumpingClock(DateTimeOffset start) : TimeProvider
{
    private DateTimeOffset now = start;
    private long timestamp;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public void Pass(TimeSpan time)
    {
        now += time;
        timestamp += time.Ticks;
    }

    public void Jump(TimeSpan by) => now += by;

    public override DateTimeOffset GetUtcNow() => now;

    public override long GetTimestamp() => timestamp;
}
