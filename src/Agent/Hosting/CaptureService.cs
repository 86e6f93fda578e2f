using System.Threading.Channels;
using CaptureAgent.Agent.Answers;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Page.Live;
using CaptureAgent.Agent.Page.Measuring;
using CaptureAgent.Agent.Page.Serving;
using CaptureAgent.Agent.Recording;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Store;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Hosting;

/// <summary>What a run is made with.</summary>
/// <param name="Output">Null: nobody listens to the events.</param>
/// <param name="Trace">Null: nothing is recorded.</param>
/// <param name="StorePath">Of the store's file, for the page.</param>
internal sealed record RunSetting(StationOptions Station, CaptureStore Store, string StorePath, QueuedEvents? Output, TraceWriter? Trace);

/// <summary>The worker: opens the devices, says that it is ready, captures until it is stopped.</summary>
internal sealed partial class CaptureService(
    RunSetting setting, SteadyClock clock, Supervision supervision, IHostApplicationLifetime lifetime, ILoggerFactory loggers) : BackgroundService
{
    /// <summary>Records that wait at most; at 10 Hz, several minutes of three devices.</summary>
    private const int QueueCapacity = 8192;

    private static readonly TimeSpan OpeningTime = TimeSpan.FromSeconds(2);

    private static readonly TimeSpan ClosingTime = TimeSpan.FromSeconds(0.7);

    private readonly ILogger logger = loggers.CreateLogger("capture-agent");

    /// <summary>A fault of the program that ended the run; null if it ended as it should.</summary>
    public Exception? Fault { get; private set; }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        try
        {
            await CaptureAsync(stoppingToken);
        }
#pragma warning disable CA1031 // Told by the command, which knows how.
        catch (Exception fault) when (!stoppingToken.IsCancellationRequested || fault is not OperationCanceledException)
#pragma warning restore CA1031
        {
            Fault = fault;
            lifetime.StopApplication();
        }
    }

    private async Task CaptureAsync(CancellationToken stop)
    {
        var queue = Channel.CreateBounded<TraceRecord>(new BoundedChannelOptions(QueueCapacity) { SingleReader = true });
        using var recording = new TraceRecording(setting.Trace, logger);
        var feed = NewFeed();
        var words = new LastWords();
        using var scrape = new Scrape(Instrumentation.MeterName);
        using var counts = new Instrumentation(clock);
        var page = new PageService(setting.Station, setting.StorePath, feed, words, scrape, clock, loggers);
        await using var answers = AnswerParts.Create(setting.Station, clock, logger);
        answers.Start();
        var output = counts.Count(new AnsweredEvents(answers, new Broadcast((IEventOutput?)setting.Output ?? new NoEvents(), feed)));
        using var factory = new LinkFactory(clock, logger);
        var core = new StationCore(setting.Station, Ledgers.Read(setting.Store, clock.GetUtcNow()));
        var round = counts.Count(words.Overhear(new PairingCards(core, setting.Station.Codes.Cards.Pair, factory.ConfirmPairing)));
        var watch = new StoreWatch(setting.Store, core, clock, logger);
        var recorder = new Recorder(counts.Time(new DecisionStore(setting.Store)), new DecisionRows(setting.Station.Station, setting.Station.TimeZone), output, logger);
        CaptureLoop? loop = null;
        loop = new CaptureLoop(queue, round, recorder, recording, output, clock, waiting =>
        {
            supervision.Live();
            if (watch.Look(waiting))
                feed.RecordChanged();
            if (page.TakeFault() is { } fault)
                loop!.Alert("no-page", fault);
        });

        Rehearse();
        var links = setting.Station.Devices.Select(device => Runner(factory.Create(device), queue.Writer)).ToList();
        var running = Task.WhenAll(links.Select(link => Task.Run(() => link.RunAsync(stop), CancellationToken.None)));
        var serving = Task.Run(() => page.RunAsync(stop), CancellationToken.None);
        await AllSpoken([.. links.Select(link => link.Queue.Spoken), page.Spoken], stop);
        if (!stop.IsCancellationRequested)
        {
            setting.Output?.WriteReady();
            supervision.Ready();
            LogReady(setting.Station.Station, links.Count);
        }

        await loop.RunAsync(stop);
        supervision.Stopping();
        await StoppedAsync(Task.WhenAll(running, serving));
        loop.Close();
        if (setting.Output is { } listened)
            await CloseAsync(listened);
        LogLoss(links);
    }

    // A run is named by its start: ids of events of another run mean nothing in it.
    private EventFeed NewFeed()
    {
        var now = clock.GetUtcNow();
        var run = now.ToUnixTimeMilliseconds().ToString("x", System.Globalization.CultureInfo.InvariantCulture);
        return new EventFeed(new Board(setting.Station, run, now), run);
    }

    private void Rehearse()
    {
        try
        {
            if (!Rehearsal.Run())
                LogRehearsal("the weighing was not accepted");
        }
#pragma warning disable CA1031 // It serves speed alone; what is truly wrong shows, and is told, where it matters.
        catch (Exception fault)
#pragma warning restore CA1031
        {
            LogRehearsal(fault.Message);
        }
    }

    private LinkRunner Runner(ILink link, ChannelWriter<TraceRecord> shared) =>
        new(link, new LinkQueue(link.Device, shared, clock), clock, logger);

    // "Ready" means that each device has been opened or has a reason why not; one that hangs while it is opened does not hold up the others.
    private async Task AllSpoken(IEnumerable<Task> spoken, CancellationToken stop)
    {
        try
        {
            await Task.WhenAll(spoken).WaitAsync(OpeningTime, clock, stop);
        }
        catch (Exception failure) when (failure is TimeoutException or OperationCanceledException)
        {
        }
    }

    private async Task StoppedAsync(Task running)
    {
        try
        {
            await running.WaitAsync(ClosingTime, clock);
        }
        catch (TimeoutException)
        {
            LogSlowLinks();
        }
    }

    private async Task CloseAsync(QueuedEvents listened)
    {
        await listened.CloseAsync(ClosingTime, clock);
        if (listened.Fault is { } fault)
            LogBrokenOutput(fault.Message);
        if (listened.Lost > 0)
            LogUnreadEvents(listened.Lost);
    }

    private void LogLoss(List<LinkRunner> links)
    {
        if (links.Sum(link => link.Queue.Lost) is > 0 and var lost)
            LogLost(lost);
    }

    [LoggerMessage(120, LogLevel.Information, "{Station}: ready, {Count} devices")]
    private partial void LogReady(string station, int count);

    [LoggerMessage(125, LogLevel.Debug, "The rehearsal failed, so that the first decision may take a little longer: {Reason}")]
    private partial void LogRehearsal(string reason);

    [LoggerMessage(121, LogLevel.Debug, "Some devices were slow to close")]
    private partial void LogSlowLinks();

    [LoggerMessage(122, LogLevel.Warning, "The computer did not keep up: {Count} records of devices were lost in this run")]
    private partial void LogLost(long count);

    [LoggerMessage(123, LogLevel.Warning, "Events could not be written to standard output: {Reason}")]
    private partial void LogBrokenOutput(string reason);

    [LoggerMessage(124, LogLevel.Warning, "{Count} events were not read from standard output; the store has all decisions")]
    private partial void LogUnreadEvents(long count);
}
