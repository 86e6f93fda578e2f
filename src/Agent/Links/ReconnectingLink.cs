using System.Threading.Channels;
using CaptureAgent.Agent.Trace;
using Microsoft.Extensions.Logging;
using Polly;
using Polly.Retry;

namespace CaptureAgent.Agent.Links;

/// <summary>Keeps one device connected for as long as the agent runs, with pauses that grow while it is away.</summary>
internal sealed partial class ReconnectingLink(
    string device, ISessionSource source, TimeProvider time, ILogger logger, LinkTimings timings) : ILink
{
    private bool afterSilence;

    public string Device => device;

    public async Task RunAsync(ChannelWriter<TraceRecord> output, CancellationToken stop)
    {
        var state = new LinkState(device, output, time, logger);
        var pipeline = BuildPipeline();
        try
        {
            // The retries wrap the connecting only, so that every outage starts from the short pause again.
            while (true)
                await pipeline.ExecuteAsync(_ => ConnectAsync(state, output, stop), stop);
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            LogStopped(device);
        }
    }

    /// <summary>A try to connect fails if the device cannot be opened, and also if it is lost before it could prove itself.</summary>
    private async ValueTask ConnectAsync(LinkState state, ChannelWriter<TraceRecord> output, CancellationToken stop)
    {
        stop.ThrowIfCancellationRequested();
        long? opened = null;
        try
        {
            // Closed before anything is said or waited for: a descriptor left on a dead node makes the kernel name the next one differently.
            await using var session = await source.OpenAsync(afterSilence, stop);
            opened = time.GetTimestamp();
            afterSilence = false;
            await state.UpAsync(session.Remark, stop);
            await ListenAsync(session, state, output, stop);
            afterSilence = true;
            LogSilent(device);
        }
        catch (LinkException lost)
        {
            afterSilence = false;
            await state.DownAsync(lost, stop);
            if (opened is not { } since || time.GetElapsedTime(since) < timings.ShortestSession)
                throw;
        }
    }

    private async Task ListenAsync(ISession session, LinkState state, ChannelWriter<TraceRecord> output, CancellationToken stop)
    {
        using var over = CancellationTokenSource.CreateLinkedTokenSource(stop);
        var listening = session.ListenAsync(output, stop);
        if (await Task.WhenAny(listening, Task.Delay(timings.ShortestSession, time, over.Token)) != listening)
            state.Proven(session.Remark);
        try
        {
            await listening;
        }
        finally
        {
            await over.CancelAsync();
        }
    }

    private ResiliencePipeline BuildPipeline() => new ResiliencePipelineBuilder { TimeProvider = time }
        .AddRetry(new RetryStrategyOptions
        {
            ShouldHandle = static tried => ValueTask.FromResult(tried.Outcome.Exception is LinkException),
            MaxRetryAttempts = int.MaxValue,
            BackoffType = DelayBackoffType.Exponential,
            UseJitter = true,
            Delay = timings.FirstDelay,
            MaxDelay = timings.LongestDelay,
        })
        .Build();

    [LoggerMessage(103, LogLevel.Debug, "{Device}: nothing heard for long; opened anew")]
    private partial void LogSilent(string device);

    [LoggerMessage(104, LogLevel.Debug, "{Device}: stopped")]
    private partial void LogStopped(string device);
}
