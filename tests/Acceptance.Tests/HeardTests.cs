using System.Globalization;
using CaptureAgent.Acceptance.Tests.Agent;
using CaptureAgent.Acceptance.Tests.Bench;
using Xunit;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>What a keeper hears of a round: the built agent plays through the real <c>aplay</c> and ALSA into WAV files, one for each sound.</summary>
public sealed class HeardTests
{
    private const int HeaderBytes = 44;

    private static readonly string[] Tones = ["heard", "got-it", "refused", "look", "urgent"];

    [Fact(Timeout = 600_000)]
    public async Task Each_answer_is_heard_as_its_tone_in_the_order_of_the_events()
    {
        Assert.SkipUnless(File.Exists("/usr/bin/aplay"), "SKIPPED: no aplay. Install it: apt-get install -y --no-install-recommends alsa-utils");
        using var station = new Station();
        var configuration = Loudspeaker(station);
        station.Configure("\"answers\": { \"device\": \"files\", \"voice\": \"none\" }");
        await station.ImportAsync();
        await using var keeper = new Keeper(station);
        await using var agent = new RunningAgent(station.Folder, [], ["env", $"ALSA_CONFIG_PATH={configuration}"]);
        await keeper.BeginAsync(agent);

        // The first chick of the day brings the chores that are due, whose tones ("look") take the place of its tick.
        Keeper.AssertAccepted(await keeper.WeighAsync(agent, Station.Conure, 58.7), Station.Conure, 58.7, within: 0.3);
        Keeper.AssertAccepted(await keeper.WeighAsync(agent, Station.Amazon, 186.4), Station.Amazon, 186.4, within: 0.6);
        keeper.Scan("AM-01");
        await agent.NextAsync("misread", one => one.Name == "scan" && one.Text("taken") is "misread" or "unreadable");
        await Keeper.WaitAsync(2);
        var again = await keeper.WeighAsync(agent, Station.Amazon, 204.9);
        Assert.Equal("rejected", again.Text("verdict"));
        await Keeper.WaitAsync(2);
        Assert.Equal(0, (await agent.TerminateAsync()).Code);

        var played = await PlayedAsync(station);
        Assert.DoesNotContain("unknown", played);
        Assert.Contains("look", played);
        Assert.Contains("heard", played);
        Assert.Equal(["got-it", "got-it", "refused", "refused"], played.Where(tone => tone is not ("look" or "heard")));
        // A tick that would come a second late is dropped on purpose, which a busy machine brings about; nothing else is, and nothing is out of order.
        var expected = Expected(agent.Log.All).ToList();
        var place = 0;
        foreach (var tone in played.Where(tone => tone != "look"))
            Assert.True((place = expected.IndexOf(tone, place) + 1) > 0, $"{tone} came out of order: {string.Join(' ', played)} for {string.Join(' ', expected)}");
    }

    // The mapping as README.md has it, of the events that this round tells.
    private static IEnumerable<string> Expected(IEnumerable<AgentEvent> events) => events.Select(one => one.Name switch
    {
        "scan" => one.Text("taken") is "misread" or "unreadable" ? "refused" : "heard",
        "weighing" => one.Text("verdict") == "accepted" ? "got-it" : "refused",
        _ => null,
    }).OfType<string>();

    // ALSA's file plugin over its null device; truncate false: a new file for each program that opens it.
    private static string Loudspeaker(Station station)
    {
        Directory.CreateDirectory(station.File("played"));
        station.Write("asound.conf", $$"""
            </usr/share/alsa/alsa.conf>
            pcm.files { type file slave.pcm "null" file "{{station.File("played")}}/tone.wav" format "wav" truncate false }
            """);
        return station.File("asound.conf");
    }

    // In the order in which the processes were started, which is that of the sounds: the next is started when the one before has been played.
    private static async Task<IReadOnlyList<string>> PlayedAsync(Station station)
    {
        Assert.Equal(0, (await station.DoAsync("hear", "--wav", "tones")).Code);
        var known = Tones.ToDictionary(tone => tone, tone => File.ReadAllBytes(Path.Combine(station.File("tones"), $"{tone}.wav"))[HeaderBytes..]);
        return
        [
            .. Directory.EnumerateFiles(station.File("played")).OrderBy(Number).Select(File.ReadAllBytes).Where(file => file.Length > HeaderBytes)
                .Select(file => known.FirstOrDefault(tone => IsPlayed(file.AsSpan(HeaderBytes), tone.Value)).Key ?? "unknown"),
        ];
    }

    // ALSA fills the last period up with silence.
    private static bool IsPlayed(ReadOnlySpan<byte> file, ReadOnlySpan<byte> tone) =>
        file.Length >= tone.Length && file[..tone.Length].SequenceEqual(tone) && !file[tone.Length..].ContainsAnyExcept((byte)0);

    private static int Number(string path) => int.TryParse(Path.GetExtension(path).TrimStart('.'), NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : 0;
}
