namespace CaptureAgent.Agent.Hosting;

/// <summary>The wall clock without its jumps: the wall time at the start plus what the monotonic clock has counted since.</summary>
/// <remarks>
/// Time taken from here never goes back. <see cref="Check"/> compares it with the wall clock: a step forward is taken over (a board
/// without a clock chip gets its time from the network minutes after it started), a step backward is not.
/// Safe to read from any thread; one thread checks.
/// </remarks>
internal sealed class SteadyClock(TimeProvider wall) : TimeProvider
{
    /// <summary>The network's time service corrects smaller errors by running the clock a little faster or slower.</summary>
    public static readonly TimeSpan Tolerance = TimeSpan.FromSeconds(0.5);

    private readonly long startTimestamp = wall.GetTimestamp();

    private readonly long startTicks = wall.GetUtcNow().UtcTicks;

    private long steppedTicks;

    private TimeSpan behindWhenTold;

    /// <summary>A jump of the wall clock.</summary>
    /// <param name="By">Forward: how far this clock has followed. Backward (negative): how far it stays ahead of the wall clock.</param>
    internal readonly record struct Step(TimeSpan By);

    public override long TimestampFrequency => wall.TimestampFrequency;

    public override TimeZoneInfo LocalTimeZone => wall.LocalTimeZone;

    public override long GetTimestamp() => wall.GetTimestamp();

    public override DateTimeOffset GetUtcNow() =>
        new(startTicks + Volatile.Read(ref steppedTicks) + wall.GetElapsedTime(startTimestamp).Ticks, TimeSpan.Zero);

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
        wall.CreateTimer(callback, state, dueTime, period);

    /// <summary>The jump since the last look, if there was one. A backward jump is reported once, not at every look.</summary>
    public Step? Check()
    {
        var ahead = wall.GetUtcNow() - GetUtcNow();
        if (ahead > Tolerance)
        {
            Volatile.Write(ref steppedTicks, steppedTicks + ahead.Ticks);
            behindWhenTold = TimeSpan.Zero;
            return new Step(ahead);
        }

        if (ahead > -Tolerance)
            behindWhenTold = TimeSpan.Zero;
        if (ahead >= -Tolerance || (behindWhenTold - ahead).Duration() <= Tolerance)
            return null;

        behindWhenTold = ahead;
        return new Step(ahead);
    }
}
