using System.Threading.Channels;
using CaptureAgent.Agent.Answers.Lamp;
using CaptureAgent.Agent.Answers.Sound;
using CaptureAgent.Agent.Answers.Tones;
using CaptureAgent.Agent.Answers.Voice;
using CaptureAgent.Agent.Events;
using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Answers;

/// <summary>Answers a run's events with tone, voice and lamp, on a task of its own: whatever becomes of them, nothing waits for them.</summary>
/// <param name="voice">Null: nothing is said.</param>
/// <param name="texts">What is said, in the station's language.</param>
/// <param name="lamp">Null: there is none.</param>
internal sealed partial class AnswerService(
    IPlayer player, IVoice? voice, SpokenTexts texts, LampRunner? lamp, QuietHours hours, TimeProvider time, ILogger logger) : IEventOutput, IAsyncDisposable
{
    /// <summary>A loudspeaker that failed is tried again after so long: a station without one must not start a process for every scan.</summary>
    public static readonly TimeSpan FaultPause = TimeSpan.FromSeconds(10);

    private readonly Lock gate = new();

    private readonly AnswerQueue queue = new();

    private readonly Channel<bool> bell = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite, SingleReader = true });

    private readonly CancellationTokenSource ending = new();

    private CancellationTokenSource? speaking;

    private Reply? spoken;

    private string? fault;

    private DateTimeOffset nextTry;

    private Task running = Task.CompletedTask;

    /// <summary>Answers that found no room, because the loudspeaker hung.</summary>
    public long Dropped
    {
        get
        {
            lock (gate)
                return queue.Dropped;
        }
    }

    public void Start() => running = Task.Run(RunAsync);

    /// <summary>Returns at once. A voice that is talking is cut short, unless it says something urgent.</summary>
    public void Write(StationEvent station)
    {
        if (AnswerMap.Of(station) is not { } reply)
            return;
        if (reply.Tone is { } answer)
            lamp?.Show(answer);
        lock (gate)
        {
            queue.Put(reply);
            if (reply.Tone is not null && (spoken?.Importance != Answer.Urgent || reply.Tone == Answer.Urgent))
                speaking?.CancelAsync();
        }

        bell.Writer.TryWrite(true);
    }

    public async ValueTask DisposeAsync()
    {
        await ending.CancelAsync();
        lock (gate)
            speaking?.CancelAsync();
        await running;
        await player.DisposeAsync();
        if (lamp is not null)
            await lamp.DisposeAsync();
        ending.Dispose();
    }

    private async Task RunAsync()
    {
        while (!ending.IsCancellationRequested)
        {
            if (fault is null)
                player.Prepare();
            try
            {
                await bell.Reader.ReadAsync(ending.Token);
            }
            catch (OperationCanceledException)
            {
                return;
            }

            while (Next() is { } reply && !ending.IsCancellationRequested)
                await AnswerAsync(reply);
        }
    }

    private Reply? Next()
    {
        lock (gate)
            return queue.TryTake(time.GetUtcNow(), out var reply) ? reply : null;
    }

    private async Task AnswerAsync(Reply reply)
    {
        if (fault is not null && time.GetUtcNow() < nextTry)
            return;
        try
        {
            var loudness = hours.LoudnessAt(reply.At);
            if (reply.Tone is { } answer && loudness > 0)
                await Play(answer, loudness);
            if (reply.Said is { } said && voice is not null && hours.MaySpeak(reply))
                await Speak(reply, texts.Of(said), loudness);
            if (fault is not null)
                LogHeardAgain();
            fault = null;
        }
        catch (PlayerException failure)
        {
            // Once an outage; the round goes on, and the page and the lamp tell the same.
            if (fault is null)
                LogUnheard(failure.Message);
            (fault, nextTry) = (failure.Message, time.GetUtcNow() + FaultPause);
        }
    }

    private async Task Play(Answer answer, int loudness)
    {
        var samples = ToneBook.Samples(answer);
        await player.PlayAsync(Wave.File(samples, Wave.Gain(loudness)), TimeSpan.FromSeconds(samples.Length / (double)Wave.Rate), ending.Token);
        player.Prepare();
    }

    private async Task Speak(Reply reply, string text, int loudness)
    {
        // Not disposed: another thread may be cancelling it, and it holds nothing.
        var cut = new CancellationTokenSource();
        lock (gate)
        {
            // What came meanwhile is newer than what would be said.
            if (ending.IsCancellationRequested || (reply.Importance < Answer.Urgent && queue.HasTone))
                return;
            (speaking, spoken) = (cut, reply);
        }

        try
        {
            await voice!.SayAsync(text, loudness, cut.Token);
        }
        finally
        {
            lock (gate)
                (speaking, spoken) = (null, null);
        }
    }

    [LoggerMessage(300, LogLevel.Warning, "Answers are not heard: {Reason} The round goes on")]
    private partial void LogUnheard(string reason);

    [LoggerMessage(301, LogLevel.Information, "Answers are heard again")]
    private partial void LogHeardAgain();
}
