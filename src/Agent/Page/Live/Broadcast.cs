using CaptureAgent.Agent.Events;

namespace CaptureAgent.Agent.Page.Live;

/// <summary>Tells each event to the page as well.</summary>
internal sealed class Broadcast(IEventOutput output, EventFeed feed) : IEventOutput
{
    public void Write(StationEvent station)
    {
        output.Write(station);
        feed.Write(station);
    }
}
