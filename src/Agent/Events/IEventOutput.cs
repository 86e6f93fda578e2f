namespace CaptureAgent.Agent.Events;

/// <summary>Where events are told. Never throws because nobody listens: a broken output must not end the round.</summary>
internal interface IEventOutput
{
    void Write(StationEvent station);
}

/// <summary>For a run that nobody listens to.</summary>
internal sealed class NoEvents : IEventOutput
{
    public void Write(StationEvent station)
    {
    }
}
