using System.Collections.Concurrent;
using System.Security.Cryptography;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Page.Live;
using CaptureAgent.Agent.Page.Measuring;
using CaptureAgent.Store;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Page.Serving;

/// <summary>Keeps the page up for as long as the agent runs. What goes wrong here is told, and never ends the capture.</summary>
/// <param name="storePath">The page opens the store for itself.</param>
internal sealed partial class PageService(StationOptions station, string storePath, EventFeed feed, LastWords words, Scrape metrics, TimeProvider time, ILoggerFactory loggers)
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(15), ClosingTime = TimeSpan.FromSeconds(0.5);

    private readonly ILogger logger = loggers.CreateLogger("page");

    private readonly ConcurrentQueue<string> faults = new();

    private readonly TaskCompletionSource spoken = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>Ends when the page listens, or has said why it cannot.</summary>
    public Task Spoken => spoken.Task;

    /// <summary>What a keeper should hear of since the last call; null: nothing.</summary>
    public string? TakeFault() => faults.TryDequeue(out var fault) ? fault : null;

    /// <summary>Listens until it is stopped; tries again for ever where it cannot.</summary>
    public async Task RunAsync(CancellationToken stop)
    {
        if (ListenAddress.Of(station.Page) is not { } listen)
        {
            spoken.TrySetResult();
            return;
        }

        var isTold = false;
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await ServeAsync(listen, stop);
                return;
            }
#pragma warning disable CA1031 // Whatever it is, it concerns the page alone.
            catch (Exception failure) when (!stop.IsCancellationRequested)
#pragma warning restore CA1031
            {
                if (!isTold)
                    Tell(failure);
                isTold = true;
                spoken.TrySetResult();
                await Task.Delay(Pause, time, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }

    private async Task ServeAsync(ListenAddress listen, CancellationToken stop)
    {
        using var certificate = listen.IsSecure ? Certificates.Of(station.Page, Path.GetDirectoryName(storePath)!, time.GetUtcNow()) : null;
        using var store = new PageStore(CaptureStore.Open(storePath, time));
        var parts = new PageParts(station, store, feed, words, metrics, time, stop);
        await using var app = PageServer.Build(parts, listen, certificate, loggers);
        await app.StartAsync(stop);
        LogListens(Addresses(app));
        if (certificate is not null)
            LogFingerprint(Certificates.Fingerprint(certificate));
        else if (!listen.IsLoopback)
            LogPlain();
        spoken.TrySetResult();
        await ReviewAsync(parts, stop);
        await Task.Delay(Timeout.InfiniteTimeSpan, time, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        using var closing = new CancellationTokenSource(ClosingTime, time);
        await app.StopAsync(closing.Token);
    }

    // Ends with the service, or with a fault: then the page goes on without the reds of the whole room.
    private async Task ReviewAsync(PageParts parts, CancellationToken stop)
    {
        try
        {
            await Task.Run(() => new MorningFindings(parts).RunAsync(stop), CancellationToken.None);
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
        }
#pragma warning disable CA1031 // It concerns this part of the page alone.
        catch (Exception fault)
#pragma warning restore CA1031
        {
            LogReview(fault.Message);
        }
    }

    private static string Addresses(WebApplication app) =>
        string.Join(", ", app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()?.Addresses ?? []);

    private void Tell(Exception failure)
    {
        LogFault(failure.Message);
        faults.Enqueue($"The page cannot be served at {station.Page.Listen}: {What(failure)} Weighing goes on; it is tried again every {Pause.TotalSeconds:0} s. Another page.listen in station.json mends it.");
    }

    private static string What(Exception failure) => failure switch
    {
        IOException { InnerException: Microsoft.AspNetCore.Connections.AddressInUseException } => "another program uses this port.",
        CryptographicException or FileNotFoundException or DirectoryNotFoundException => $"the certificate cannot be used ({failure.Message}).",
        StoreException store => $"{store.Message} {store.Remedy}",
        _ => failure.Message.TrimEnd('.') + ".",
    };

    [LoggerMessage(400, LogLevel.Information, "The page is at {Addresses}")]
    private partial void LogListens(string addresses);

    [LoggerMessage(401, LogLevel.Error, "The page cannot be served: {Reason}")]
    private partial void LogFault(string reason);

    [LoggerMessage(404, LogLevel.Error, "The morning is not reviewed for the page any more: {Reason}")]
    private partial void LogReview(string reason);

    [LoggerMessage(402, LogLevel.Information, "The page's certificate has the fingerprint {Fingerprint}")]
    private partial void LogFingerprint(string fingerprint);

    [LoggerMessage(403, LogLevel.Warning, "The page is open to the network without encryption: https in page.listen is safer")]
    private partial void LogPlain();
}
