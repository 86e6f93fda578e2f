using CaptureAgent.Agent.Answers.Lamp;
using CaptureAgent.Agent.Answers.Sound;
using CaptureAgent.Agent.Answers.Tones;
using CaptureAgent.Agent.Answers.Voice;
using CaptureAgent.Agent.Configuration;

namespace CaptureAgent.Agent.Checks;

/// <summary>Can the station be heard? A round goes on without, so nothing here is more than a warning.</summary>
internal static class AnswerCheck
{
    public static async Task LookAsync(AnswerOptions answers, TimeProvider time, CheckReport report, CancellationToken stop)
    {
        if (answers.Loudness == 0)
            report.Note("answers: loudness is 0, so nothing is heard.");
        else
            await Listen(answers, time, report, stop);
        LookForVoice(answers, report);
        LookAtLamp(answers.Lamp, report);
    }

    // Silence, on the very device: whether it can be opened and takes sound, without waking a chick.
    private static async Task Listen(AnswerOptions answers, TimeProvider time, CheckReport report, CancellationToken stop)
    {
        await using var player = new AplayPlayer(answers.Device, time);
        try
        {
            var silence = new double[Wave.Rate / 20];
            await player.PlayAsync(Wave.File(silence, 0), TimeSpan.FromSeconds(0.05), stop);
            report.Good("tones", $"played on '{answers.Device}'; `capture-agent hear` plays them all");
        }
        catch (PlayerException failure)
        {
            report.Warn("tones", $"{failure.Message} Until then nothing is heard; weighing goes on.");
        }
    }

    private static void LookForVoice(AnswerOptions answers, CheckReport report)
    {
        if (answers.Voice == VoiceEngines.None)
            return;
        if (VoiceEngines.Find(answers.Voice) is { } engine)
            report.Good("voice", $"{engine}, language {answers.Language}");
        else
            report.Warn("voice", "no engine is installed, so nothing is said; tones go on. Install one: apt install espeak-ng. Or write \"voice\": \"none\" into answers of station.json.");
    }

    private static void LookAtLamp(LampOptions options, CheckReport report)
    {
        if (LampSources.Create(options) is not { } source)
            return;
        try
        {
            source.Open().Dispose();
            report.Good("lamp", $"{options.Kind}; `capture-agent hear` shows all patterns");
        }
        catch (LampException failure)
        {
            report.Warn("lamp", failure.Message);
        }
    }
}
