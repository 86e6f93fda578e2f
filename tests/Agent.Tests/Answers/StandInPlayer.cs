using CaptureAgent.Agent.Answers.Sound;

namespace CaptureAgent.Agent.Tests.Answers;

/// <summary>A loudspeaker that keeps what it played, and that can hang or be broken.</summary>
internal sealed class StandInPlayer : IPlayer
{
    private readonly TaskCompletionSource hanging = new();

    public List<int> Played { get; } = [];

    public SemaphoreSlim Heard { get; } = new(0);

    public bool Hangs { get; set; }

    public string? Fault { get; set; }

    public void Prepare()
    {
    }

    public async Task PlayAsync(ReadOnlyMemory<byte> wave, TimeSpan length, CancellationToken cut)
    {
        Heard.Release();
        lock (Played)
            Played.Add(wave.Length);
        if (Hangs)
            await hanging.Task.WaitAsync(cut).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        if (Fault is { } fault)
            throw new PlayerException(fault);
    }

    public void LetGo() => hanging.TrySetResult();

    public ValueTask DisposeAsync() => default;
}
