using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Answers.Lamp;

/// <summary>Plays the patterns, the newest answer's at a time; an urgent one is seen to its end. A lamp that fails is tried again at the next answer.</summary>
internal sealed partial class LampRunner(ILampSource source, TimeProvider time, ILogger logger) : IAsyncDisposable
{
    private readonly Lock gate = new();

    private Answer? showing;

    private CancellationTokenSource current = new();

    private Task running = Task.CompletedTask;

    private ILamp? lamp;

    private string? fault;

    /// <summary>Returns at once.</summary>
    public void Show(Answer answer)
    {
        lock (gate)
        {
            if (showing == Answer.Urgent && answer != Answer.Urgent)
                return;
            current.CancelAsync();
            (showing, current) = (answer, new CancellationTokenSource());
            var stop = current.Token;
            // One after the other: two patterns at once would be a third.
            running = running.ContinueWith(_ => PlayAsync(answer, stop), CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default).Unwrap();
        }
    }

    /// <summary>Until the lamp is dark again.</summary>
    public Task Shown
    {
        get
        {
            lock (gate)
                return running;
        }
    }

    public async ValueTask DisposeAsync()
    {
        lock (gate)
            current.CancelAsync();
        await Shown;
        lamp?.Dispose();
    }

    private async Task PlayAsync(Answer answer, CancellationToken stop)
    {
        try
        {
            if (stop.IsCancellationRequested)
                return;
            lamp ??= source.Open();
            foreach (var step in LampPattern.Of(answer))
            {
                lamp.Show(step.Colour);
                await Task.Delay(step.Length, time, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
                if (stop.IsCancellationRequested)
                    break;
            }

            lamp.Show(LampColour.Off);
            if (fault is not null)
                LogSeenAgain();
            fault = null;
        }
#pragma warning disable CA1031 // Whatever a driver throws: a lamp is never a reason to stop.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            if (fault is null)
                LogUnseen(failure.Message);
            fault = failure.Message;
            Close();
        }
        finally
        {
            lock (gate)
            {
                if (!stop.IsCancellationRequested)
                    showing = null;
            }
        }
    }

    private void Close()
    {
        try
        {
            lamp?.Dispose();
        }
#pragma warning disable CA1031 // As above.
        catch (Exception)
#pragma warning restore CA1031
        {
            // It is gone already.
        }

        lamp = null;
    }

    [LoggerMessage(310, LogLevel.Warning, "The lamp shows nothing: {Reason} Tones and the round go on")]
    private partial void LogUnseen(string reason);

    [LoggerMessage(311, LogLevel.Information, "The lamp shows answers again")]
    private partial void LogSeenAgain();
}
