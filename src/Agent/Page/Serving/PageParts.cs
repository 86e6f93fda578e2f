using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Feeding;
using CaptureAgent.Agent.Page.Guard;
using CaptureAgent.Agent.Page.Live;
using CaptureAgent.Agent.Page.Measuring;
using CaptureAgent.Agent.Round;

namespace CaptureAgent.Agent.Page.Serving;

/// <summary>What the routes work with.</summary>
/// <param name="Stopping">Ends the streams when the agent stops.</param>
internal sealed record PageParts(
    StationOptions Station, PageStore Store, EventFeed Feed, LastWords Words, Scrape Metrics, TimeProvider Time, CancellationToken Stopping)
{
    public NurseryDay Days { get; } = new(TimeZoneInfo.FindSystemTimeZoneById(Station.TimeZone), Station.DayStartsAt);

    public FeedPlan Plan { get; } = new(Station.Feeding, TimeZoneInfo.FindSystemTimeZoneById(Station.TimeZone));

    public Attempts Attempts { get; } = new(Time);

    public Func<string, string?> CodeFault { get; } = CodeFaults.Of(Station.Codes);

    private int looking;

    /// <summary>Streams that are open.</summary>
    public int Looking => Volatile.Read(ref looking);

    /// <summary>One more that looks, until it is disposed.</summary>
    public IDisposable Look()
    {
        Interlocked.Increment(ref looking);
        return new Looked(this);
    }

    private sealed class Looked(PageParts parts) : IDisposable
    {
        public void Dispose() => Interlocked.Decrement(ref parts.looking);
    }

    public DateOnly Today => Days.Of(Time.GetUtcNow());
}
