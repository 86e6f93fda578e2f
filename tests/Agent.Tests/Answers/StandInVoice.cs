using CaptureAgent.Agent.Answers.Voice;

namespace CaptureAgent.Agent.Tests.Answers;

/// <summary>Keeps what it was told to say, and can talk for ever.</summary>
internal sealed class StandInVoice : IVoice
{
    private readonly TaskCompletionSource talking = new();

    public List<string> Said { get; } = [];

    public SemaphoreSlim Heard { get; } = new(0);

    public bool Talks { get; set; }

    public int Cut { get; private set; }

    public async Task SayAsync(string text, int loudness, CancellationToken cut)
    {
        Said.Add(text);
        Heard.Release();
        if (Talks)
            await talking.Task.WaitAsync(cut).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        if (cut.IsCancellationRequested)
            Cut++;
    }

    public void End() => talking.TrySetResult();
}
