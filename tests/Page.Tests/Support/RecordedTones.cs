using System.Globalization;
using CaptureAgent.Agent.Answers;
using CaptureAgent.Agent.Answers.Tones;

namespace CaptureAgent.Page.Tests.Support;

/// <summary>A loudspeaker whose sounds go into files: ALSA's own file plugin over its null device, one file for each sound that the real <c>aplay</c> plays.</summary>
internal sealed class RecordedTones
{
    public const string Device = "recorded";

    public const int Loudness = 60;

    private const int HeaderBytes = 44;

    private readonly string folder;

    public RecordedTones(string parent)
    {
        folder = Directory.CreateDirectory(Path.Combine(parent, "tones")).FullName;
        File.WriteAllText(Configuration, $$"""
            </usr/share/alsa/alsa.conf>
            pcm.{{Device}} { type file slave.pcm "null" file "{{folder}}/tone.wav" format "wav" truncate false }
            """);
    }

    public static bool CanRecord => File.Exists("/usr/bin/aplay");

    /// <summary>What ALSA_CONFIG_PATH names.</summary>
    public string Configuration => Path.Combine(folder, "asound.conf");

    /// <summary>The tones that were played, in order, by their names; a sound that is none of the five is "unknown".</summary>
    public IReadOnlyList<string> Played() =>
        [.. Directory.EnumerateFiles(folder, "tone.wav*").OrderBy(Number).Select(File.ReadAllBytes).Where(file => file.Length > HeaderBytes).Select(NameOf)];

    // The first has no number. A process is started for the sound that is next, so that their order is that of the sounds.
    private static int Number(string path) => int.TryParse(Path.GetExtension(path).TrimStart('.'), NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : 0;

    // ALSA fills the last period up with silence.
    private static string NameOf(byte[] file) => AnswerNames.All.Where(answer =>
    {
        var samples = Wave.File(ToneBook.Samples(answer), Wave.Gain(Loudness)).AsSpan(HeaderBytes);
        var played = file.AsSpan(HeaderBytes);
        return played.Length >= samples.Length && played[..samples.Length].SequenceEqual(samples) && !played[samples.Length..].ContainsAnyExcept((byte)0);
    }).Select(AnswerNames.Of).FirstOrDefault("unknown");
}
