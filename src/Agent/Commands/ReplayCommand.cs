using System.CommandLine;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Hosting;
using CaptureAgent.Agent.Recording;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Store;
using CaptureAgent.Store.Csv;
using Microsoft.Extensions.Logging.Abstractions;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>replay</c>: the same core, the trace's own time.</summary>
internal static class ReplayCommand
{
    private const string InMemory = ":memory:";

    public static Command Create(Surroundings around)
    {
        var trace = new Argument<string>("TRACE") { Description = "A trace, as `run --record` writes it." };
        var register = new Option<string?>("--register") { HelpName = "FILE", Description = "A register (CSV) to import first." };
        var history = new Option<string?>("--history") { HelpName = "FILE", Description = "Weights (CSV) to import first." };
        var command = new Command("replay", """
            Decides a recorded round again, faster than it was, and prints its events.
            Writes only to the file that --store names; without it nothing is kept.

            Example:
              capture-agent replay morning.ndjson --register chicks.csv --history weights.csv
            """) { trace, register, history };
        var arguments = new StationArguments(command);
        command.SetAction(parsed =>
        {
            var station = arguments.Read(parsed, around);
            var path = around.FullPath(parsed.GetValue(trace)!);
            using var file = TraceReader.Open(path);
            using var store = station.StoreIsNamed ? station.OpenStore(around.Time) : CaptureStore.Open(InMemory, around.Time);
            if (parsed.GetValue(register) is { } chicks)
                Import(around.FullPath(chicks), text => CsvImport.Register(store, text, ImportCommand.Options(station.Options, skipBad: false)));
            if (parsed.GetValue(history) is { } weights)
                Import(around.FullPath(weights), text => CsvImport.Weights(store, text, ImportCommand.Options(station.Options, skipBad: false)));
            return Replay(new TraceReader(file, path, [.. station.Options.Devices.Select(device => device.Id)]), station, store, around);
        });
        return command;
    }

    private static int Replay(TraceReader reader, Station station, CaptureStore store, Surroundings around)
    {
        var output = new StreamEvents(around.Output);
        var rows = new DecisionRows(station.Options.Station, station.Options.TimeZone);
        var recorder = new Recorder(new DecisionStore(store), rows, output, NullLogger.Instance);
        var events = new List<StationEvent>();
        StationCore? core = null;
        var last = DateTimeOffset.MinValue;
        try
        {
            foreach (var record in reader.Read())
            {
                last = record.At;
                core ??= new StationCore(station.Options, Ledgers.Read(store, last));
                core.Accept(record, events);
                if (recorder.NextTry <= last)
                    recorder.Retry(last);
                if (events.Count > 0)
                    recorder.Take(events, last);
                events.Clear();
            }
        }
        finally
        {
            // Nothing more fires at the end, but what was decided must not be lost with it, not even before a broken line.
            recorder.Close(last);
        }

        return recorder.Lost == 0
            ? ExitCode.Done
            : throw new StoreException($"{recorder.Lost} decisions of this replay could not be stored in {station.StorePath}.", "The alerts above say why; replay it again into a store that can be written.");
    }

    private static void Import(string path, Func<TextReader, ImportResult> import)
    {
        using var text = ImportCommand.Open(path);
        var result = import(text);
        if (!result.Written)
            throw new InputException(ImportCommand.Describe(path, result.Bad));
    }
}
