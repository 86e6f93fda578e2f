using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using CaptureAgent.Benchmarks.Driving;
using CaptureAgent.Benchmarks.Reporting;
using CaptureAgent.Benchmarks.Rounds;

namespace CaptureAgent.Benchmarks;

/// <summary>How much faster than real time a recorded round is decided again.</summary>
internal static class Replay
{
    private const double RoundSeconds = 2 * 3600;
    private const int Turns = 5;
    private const double Target = 2000;

    public static int Run()
    {
        var load = Machine.Load();
        using var files = new RoundFiles();
        var round = GeneratedRound.Write(files.Trace, RoundSeconds);
        files.Write(round.Placings);
        File.WriteAllLines(files.In("start.ndjson"), File.ReadLines(files.Trace).Take(1));

        var first = Seconds(() => ReplayedRound.Run(files, ":memory:"));
        var stored = ReplayedRound.Run(files, ":memory:");
        List<double> replayed = [], parsed = [], whole = [], startOnly = [];
        for (var turn = 0; turn < Turns; turn++)
        {
            replayed.Add(Seconds(() => ReplayedRound.Run(files, ":memory:")));
            parsed.Add(Seconds(() => Parse(files.Trace)));
            whole.Add(Seconds(() => AgentUnderTest.Do(files.Folder, "replay", files.Trace, "--register", files.Register)));
            startOnly.Add(Seconds(() => AgentUnderTest.Do(files.Folder, "replay", files.In("start.ndjson"), "--register", files.Register)));
        }

        ResultFile.Write("replay", Machine.Describe(load, files.Folder), string.Create(CultureInfo.InvariantCulture, $"""
            A generated round of {round.Seconds / 3600:0.00} hours: {round.Placings} placings of chicks that sleep, walk and flap, {round.Records} records (scale at 10 Hz,
            probe at 1 Hz, scanner), {new FileInfo(files.Trace).Length / 1e6:0.0} MB of NDJSON in a file. The replay decided {stored.Accepted} accepted and {stored.Rejected} rejected weighings.
            Median of {Turns} turns, all ways in each turn. "Times real time" is seconds of trace by seconds of wall time.

            | way | seconds | times real time | records a second |
            | --- | --- | --- | --- |
            {Row("reader, core, recorder and store in memory, in one process that is warm", Median(replayed), round)}
            {Row("the same, the first time in the process (with compiling)", first, round)}
            {Row("`capture-agent replay` as a process, start and exit included", Median(whole), round)}
            {Row("the same, less the start (the same command on one record)", Median(whole) - Median(startOnly), round)}
            {Row("baseline: each line read and parsed by JsonDocument, nothing decided", Median(parsed), round)}

            Target: {Target:0} times real time, the start of the process apart.
            """));
        return 0;
    }

    private static string Row(string way, double seconds, GeneratedRound round) => string.Create(
        CultureInfo.InvariantCulture, $"| {way} | {seconds:0.00} | {round.Seconds / seconds:0} | {round.Records / seconds:0} |");

    private static double Seconds(Action work)
    {
        var start = Stopwatch.GetTimestamp();
        work();
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    private static double Median(List<double> values) => values.Order().ElementAt(values.Count / 2);

    private static void Parse(string path)
    {
        var characters = 0L;
        foreach (var line in File.ReadLines(path))
        {
            using var record = JsonDocument.Parse(line);
            _ = record.RootElement.GetProperty("at").GetDateTimeOffset();
            characters += record.RootElement.GetProperty("device").GetString()!.Length + record.RootElement.GetProperty("text").GetString()!.Length;
        }

        if (characters == 0)
            throw new InvalidOperationException("The trace is empty.");
    }
}
