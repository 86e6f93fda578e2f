using CaptureAgent.Agent.Answers.Sound;

namespace CaptureAgent.Agent.Answers.Voice;

/// <summary>Which engine speaks.</summary>
internal static class VoiceEngines
{
    public const string Auto = "auto", None = "none", Rendered = "espeak-ng", Service = "spd-say";

    public static IReadOnlyList<string> Names { get; } = [Auto, None, Rendered, Service];

    /// <summary>The engine that is meant, by the name of its program; null if none is wanted, or none is installed.</summary>
    public static string? Find(string wanted) => wanted switch
    {
        None => null,
        // The one that shares the loudspeaker with the tones first.
        Auto => new[] { Rendered, Service }.FirstOrDefault(Programs.IsInstalled),
        _ => Programs.IsInstalled(wanted) ? wanted : null,
    };

    public static IVoice? Create(string wanted, string language, IPlayer player, TimeProvider time) => Find(wanted) switch
    {
        Rendered => new RenderedVoice(language, player, time),
        Service => new SpeechServiceVoice(language, time),
        _ => null,
    };
}
