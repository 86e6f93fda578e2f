using CaptureAgent.Agent.Answers.Voice;

namespace CaptureAgent.Agent.Answers;

/// <summary>What is answered to one event.</summary>
/// <param name="Tone">Null: nothing is heard before what is said.</param>
/// <param name="Said">Null: the tone says it all.</param>
internal sealed record Reply(DateTimeOffset At, Answer? Tone, Saying? Said)
{
    /// <summary>What is told without a tone is no more pressing than a code that was read.</summary>
    public Answer Importance => Tone ?? Answer.Heard;
}
