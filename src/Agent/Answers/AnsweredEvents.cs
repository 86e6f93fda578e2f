using CaptureAgent.Agent.Events;

namespace CaptureAgent.Agent.Answers;

/// <summary>Answers each event that is told. What is told of a decision is on disk: so is what is answered.</summary>
internal sealed class AnsweredEvents(AnswerService answers, IEventOutput output) : IEventOutput
{
    public void Write(StationEvent station)
    {
        // The tone first: somebody waits for it.
        answers.Write(station);
        output.Write(station);
    }
}
