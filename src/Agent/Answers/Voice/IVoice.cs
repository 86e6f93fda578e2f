namespace CaptureAgent.Agent.Answers.Voice;

/// <summary>An engine that speaks.</summary>
internal interface IVoice
{
    /// <summary>Returns when it has been said, or was cut short.</summary>
    /// <param name="text">In the station's language.</param>
    /// <param name="loudness">1 to 100 %.</param>
    /// <exception cref="Sound.PlayerException">It was not said.</exception>
    Task SayAsync(string text, int loudness, CancellationToken cut);
}
