using System.Text.Json;
using CaptureAgent.Acceptance.Tests.Agent;
using Xunit;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>Replays every folder under Recordings: a new case, or a fault once seen, is a new folder. Its README says what a folder holds.</summary>
public sealed class RecordingTests
{
    private static readonly string Root = Path.Combine(AppContext.BaseDirectory, "Recordings");

    public static TheoryData<string> Names => [.. Directory.GetDirectories(Root).Select(folder => Path.GetFileName(folder)).Order(StringComparer.Ordinal)];

    [Theory(Timeout = 600_000)]
    [MemberData(nameof(Names))]
    public async Task A_recording_gives_the_events_that_it_must(string name)
    {
        var folder = Path.Combine(Root, name);
        var replay = await AgentProgram.RunAsync(folder, [.. Arguments(folder)]);
        Assert.True(replay.Code == 0, replay.Error);
        Assert.Empty(Directory.GetFiles(folder, "*.db"));

        var events = replay.Lines.Select(line => new AgentEvent(line)).ToList();
        var expected = File.ReadLines(Path.Combine(folder, "expected.ndjson")).Where(line => line.Length > 0).Select(line => JsonDocument.Parse(line).RootElement).ToList();

        // Two devices are not bound to each other: a weight may come sooner or later than what a probe shows meanwhile.
        Dictionary<string, int> places = [];
        foreach (var one in expected)
        {
            var device = one.TryGetProperty("device", out var named) ? named.GetString()! : "";
            var place = places.GetValueOrDefault(device);
            var found = events.FindIndex(place, candidate => Expectation.Fits(one, candidate.Fields));
            Assert.True(found >= 0, $"{name}: missing, or not in this order:\n{one}\nAfter what was found before it came:\n{string.Join('\n', events.Skip(place))}");
            places[device] = found + 1;
        }

        foreach (var kind in (ReadOnlySpan<string>)["weighing", "feed", "undo"])
        {
            Assert.True(
                events.Count(candidate => candidate.Name == kind) == expected.Count(one => one.GetProperty("event").GetString() == kind),
                $"{name}: another number of events '{kind}' than expected:\n{string.Join('\n', events)}");
        }
    }

    private static IEnumerable<string> Arguments(string folder)
    {
        yield return "replay";
        yield return "trace.ndjson";
        foreach (var (option, file) in (List<(string, string)>)[("--register", "register.csv"), ("--history", "history.csv")])
        {
            if (!File.Exists(Path.Combine(folder, file)))
                continue;
            yield return option;
            yield return file;
        }
    }
}
