using System.Diagnostics;
using System.Globalization;
using CaptureAgent.Agent.Answers;
using CaptureAgent.Agent.Answers.Sound;
using CaptureAgent.Agent.Answers.Tones;
using CaptureAgent.Agent.Answers.Voice;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Recording;
using CaptureAgent.Benchmarks.Reporting;
using CaptureAgent.Store;
using Microsoft.Extensions.Logging.Abstractions;

namespace CaptureAgent.Benchmarks;

/// <summary>How long after its commit a weighing is heard: until the first samples are at the program that plays them.</summary>
internal static class Answers
{
    private const int Weighings = 300;
    private const double TargetMilliseconds = 60;

    /// <summary>Longer than the next process takes to get ready, far shorter than between two chicks.</summary>
    private static readonly TimeSpan Between = TimeSpan.FromMilliseconds(100);

    private static readonly DateTimeOffset Start = new(2026, 3, 2, 5, 0, 0, TimeSpan.Zero);

    public static async Task<int> RunAsync()
    {
        var load = Machine.Load();
        var folder = Directory.CreateTempSubdirectory("answers-").FullName;
        try
        {
            var ready = await MeasureAsync(folder, isReady: true);
            var each = await MeasureAsync(folder, isReady: false);
            var real = await RealAsync();
            ResultFile.Write("answers", Machine.Describe(load, folder), string.Create(CultureInfo.InvariantCulture, $"""
                {Weighings} accepted weighings each, through the real recorder and a real store on this disk; the answers' own queue and player. In the place of `aplay` a shell script that
                notes the moment at which the first byte of the tone is at its input (`head -c 1`, then `date`: the start of these two, some milliseconds, is part of the figure).
                Not measured: what ALSA buffers, and the loudspeaker; this machine has none.

                {Spread.Head}
                {ready.Row("commit done ... first sample at a process that was ready (as it is done)")}
                {each.Row("baseline: commit done ... first sample at a process started for the tone")}

                Target: {TargetMilliseconds:0} ms.

                {real}
                """));
            return 0;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task<Spread> MeasureAsync(string folder, bool isReady)
    {
        var heard = Path.Combine(folder, isReady ? "ready" : "each");
        var script = Script(folder, heard);
        using var store = CaptureStore.Open($"{heard}.db", TimeProvider.System);
        store.Register(new Chick("AM-0147", Species: null, Hatched: null));
        var player = new Counted(new AplayPlayer("default", TimeProvider.System, script), isReady);
        await using var answers = new AnswerService(
            player, null, SpokenTexts.In("en"), null, new QuietHours(null, null, 60, 0, TimeZoneInfo.Utc), TimeProvider.System, NullLogger.Instance);
        answers.Start();
        var committed = new Committed(new AnsweredEvents(answers, new NoEvents()));
        var recorder = new Recorder(new DecisionStore(store), new DecisionRows("bench", "Etc/UTC"), committed, NullLogger.Instance);
        for (var i = 0; i < Weighings; i++)
        {
            // As in a round: the tone before has been heard, and there was a moment to get ready.
            if (i > 0)
                await player.Done.WaitAsync();
            await Task.Delay(Between);
            var now = DateTimeOffset.UtcNow;
            recorder.Take([new WeighingEvent(now, "AM-0147", 186.4m, 0.11m, "accepted", [], null, 8.2m, 24, "scale") { Id = Guid.CreateVersion7(), Day = DateOnly.FromDateTime(Start.Date).AddDays(i) }], now);
        }

        await player.Done.WaitAsync();
        var stamps = File.ReadAllLines(heard).Select(line => DateTimeOffset.UnixEpoch.AddTicks(long.Parse(line, CultureInfo.InvariantCulture) / 100)).ToList();
        if (stamps.Count != Weighings)
            throw new InvalidOperationException($"{Weighings} weighings, {stamps.Count} tones.");
        return new Spread(committed.Moments.Zip(stamps, (told, first) => (first - told).TotalMilliseconds));
    }

    // ALSA's null device takes no time: what is left is the program's start, its reading of ALSA's configuration, and the opening.
    private static async Task<string> RealAsync()
    {
        const string Program = "aplay";
        if (!Programs.IsInstalled(Program))
            return "The real `aplay` was not measured: apt install alsa-utils.";
        var empty = Wave.File(new double[1], 0);
        List<double> ready = [], each = [];
        await using var player = new AplayPlayer("null", TimeProvider.System);
        for (var i = 0; i < Weighings; i++)
        {
            var isReady = i % 2 == 0;
            if (isReady)
                player.Prepare();
            await Task.Delay(Between);
            var start = Stopwatch.GetTimestamp();
            await player.PlayAsync(empty, TimeSpan.FromSeconds(1), CancellationToken.None);
            (isReady ? ready : each).Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }

        return $"""
            The real `aplay` on ALSA's null device, which takes no time, in turns; from the sound's handing over to the program's end.

            {Spread.Head}
            {new Spread(ready).Row("a process that was ready")}
            {new Spread(each).Row("baseline: a process started for the sound")}
            """;
    }

    private static string Script(string folder, string heard)
    {
        var path = Path.Combine(folder, "player-" + Path.GetFileName(heard));
        File.WriteAllText(path, $"#!/bin/sh\nhead -c 1 > /dev/null\ndate +%s%N >> {heard}\ncat > /dev/null\n");
        if (OperatingSystem.IsLinux())
            File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        return path;
    }

    /// <summary>Notes when each decision is told, which is right after its commit.</summary>
    private sealed class Committed(IEventOutput output) : IEventOutput
    {
        public List<DateTimeOffset> Moments { get; } = [];

        public void Write(StationEvent station)
        {
            Moments.Add(DateTimeOffset.UtcNow);
            output.Write(station);
        }
    }

    /// <summary>Tells when a tone is over; starts its process beforehand or when the tone is there.</summary>
    private sealed class Counted(IPlayer player, bool isReady) : IPlayer
    {
        public SemaphoreSlim Done { get; } = new(0);

        public void Prepare()
        {
            if (isReady)
                player.Prepare();
        }

        public async Task PlayAsync(ReadOnlyMemory<byte> wave, TimeSpan length, CancellationToken cut)
        {
            await player.PlayAsync(wave, length, cut);
            Done.Release();
        }

        public ValueTask DisposeAsync() => player.DisposeAsync();
    }
}
