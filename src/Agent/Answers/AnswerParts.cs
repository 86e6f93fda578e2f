using CaptureAgent.Agent.Answers.Lamp;
using CaptureAgent.Agent.Answers.Sound;
using CaptureAgent.Agent.Answers.Voice;
using CaptureAgent.Agent.Configuration;
using Microsoft.Extensions.Logging;

namespace CaptureAgent.Agent.Answers;

/// <summary>Puts together what a station answers with.</summary>
internal static class AnswerParts
{
    public static AnswerService Create(StationOptions station, TimeProvider time, ILogger logger)
    {
        var answers = station.Answers;
        var player = new AplayPlayer(answers.Device, time);
        var lamp = LampSources.Create(answers.Lamp) is { } source ? new LampRunner(source, time, logger) : null;
        return new AnswerService(
            player, VoiceEngines.Create(answers.Voice, answers.Language, player, time), SpokenTexts.In(answers.Language), lamp, Hours(station), time, logger);
    }

    public static QuietHours Hours(StationOptions station) => new(
        station.Answers.QuietFrom, station.Answers.QuietUntil, station.Answers.Loudness, station.Answers.QuietLoudness,
        TimeZoneInfo.FindSystemTimeZoneById(station.TimeZone));
}
