using System.Diagnostics;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Hosting;
using CaptureAgent.Agent.Recording;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Store;
using CaptureAgent.Store.Csv;
using Microsoft.Extensions.Logging.Abstractions;

namespace CaptureAgent.Benchmarks.Rounds;

/// <summary>A trace through the parts that <c>capture-agent replay</c> is made of, in this process.</summary>
internal static class ReplayedRound
{
    /// <param name="files">Station, register and trace.</param>
    /// <param name="storePath">":memory:" or a file.</param>
    /// <param name="decided">Called after each record that led to a stored decision, with the milliseconds from the record to the written event.</param>
    /// <returns>What was stored.</returns>
    public static CountingStore Run(RoundFiles files, string storePath, Action<double>? decided = null)
    {
        var options = StationFile.Load(files.Station, devicesAreOpened: false);
        using var store = CaptureStore.Open(storePath, TimeProvider.System);
        using (var register = File.OpenText(files.Register))
            CsvImport.Register(store, register, new ImportOptions(options.Station, options.TimeZone));
        using var file = TraceReader.Open(files.Trace);
        var counting = new CountingStore(new DecisionStore(store));
        var recorder = new Recorder(counting, new DecisionRows(options.Station, options.TimeZone), new StreamEvents(Stream.Null), NullLogger.Instance);
        var events = new List<StationEvent>();
        StationCore? core = null;
        foreach (var record in new TraceReader(file, files.Trace, [.. options.Devices.Select(device => device.Id)]).Read())
        {
            core ??= new StationCore(options, Ledgers.Read(store, record.At));
            var start = Stopwatch.GetTimestamp();
            core.Accept(record, events);
            if (events.Count == 0)
                continue;
            recorder.Take(events, record.At);
            if (decided is not null && events.Exists(one => one is DecisionEvent and not TareAfterEvent))
                decided(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            events.Clear();
        }

        return recorder.Lost == 0 && recorder.Waiting == 0 ? counting : throw new InvalidOperationException("Not every decision was stored.");
    }
}
