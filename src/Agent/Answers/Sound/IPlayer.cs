namespace CaptureAgent.Agent.Answers.Sound;

/// <summary>Where sound goes.</summary>
internal interface IPlayer : IAsyncDisposable
{
    /// <summary>Does beforehand what can be done, so that the next sound comes at once. Never throws.</summary>
    void Prepare();

    /// <summary>Returns when it has been heard, or was cut short by <paramref name="cut"/>.</summary>
    /// <param name="wave">A RIFF file.</param>
    /// <exception cref="PlayerException">It was not heard.</exception>
    Task PlayAsync(ReadOnlyMemory<byte> wave, TimeSpan length, CancellationToken cut);
}

/// <summary>Nothing was heard. The message says why and what to do.</summary>
internal sealed class PlayerException(string message) : Exception(message);
