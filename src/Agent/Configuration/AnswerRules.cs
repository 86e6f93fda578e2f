using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Answers.Voice;

namespace CaptureAgent.Agent.Configuration;

/// <summary>What the values of answers must be beyond their kind.</summary>
internal static class AnswerRules
{
    private const int HighestLine = 1023, LongestWord = 32;

    public static void Check(AnswerOptions answers, RuleBook book)
    {
        if (string.IsNullOrWhiteSpace(answers.Device))
            book.Add("answers.device", answers.Device, "must be the name of an ALSA device, such as default; `aplay -L` lists them.");
        book.Between("answers.loudness", answers.Loudness, 0, 100, "%");
        book.Between("answers.quietLoudness", answers.QuietLoudness, 0, 100, "%");
        if (answers.QuietFrom is null != answers.QuietUntil is null)
            book.Add(answers.QuietFrom is null ? "answers.quietFrom" : "answers.quietUntil", null, "missing: quiet hours have a beginning and an end.");
        else if (answers.QuietFrom is not null && answers.QuietFrom == answers.QuietUntil)
            book.Add("answers.quietUntil", answers.QuietUntil?.ToString("HH:mm", CultureInfo.InvariantCulture), "must differ from quietFrom; for silence all day set loudness to 0.");
        book.OneOf("answers.voice", answers.Voice, VoiceEngines.Names);
        book.OneOf("answers.language", answers.Language, SpokenTexts.Languages);
        CheckLamp(answers.Lamp, book);
    }

    private static void CheckLamp(LampOptions lamp, RuleBook book)
    {
        if (!book.OneOf("answers.lamp.kind", lamp.Kind, ["none", "gpio", "serial"]) || lamp.Kind == "none")
            return;
        (string Key, string? Value)[] colours = [("green", lamp.Green), ("yellow", lamp.Yellow), ("red", lamp.Red)];
        if (lamp.Kind == "gpio")
        {
            foreach (var (key, value) in colours)
            {
                if (!int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var line) || line > HighestLine)
                    book.Add($"answers.lamp.{key}", value, $"must be the number of the light's output line, 0 to {HighestLine}.");
            }

            if (colours.Select(colour => colour.Value).Where(value => value is not null).GroupBy(value => value).FirstOrDefault(same => same.Count() > 1) is { } twice)
                book.Add("answers.lamp", twice.Key, "two lights have the same line; each needs its own.");
            return;
        }

        foreach (var (key, value) in colours.Append(("off", lamp.Off)))
        {
            if (value is not { Length: > 0 and <= LongestWord } || !Ascii.IsValid(value))
                book.Add($"answers.lamp.{key}", value, $"must be what the lamp wants to be sent, 1 to {LongestWord} ASCII characters; its maker says what.");
        }

        if (string.IsNullOrWhiteSpace(lamp.Path))
            book.Add("answers.lamp.path", lamp.Path, "missing: the lamp's file, best the one under /dev/serial/by-id.");
        book.Between("answers.lamp.baud", lamp.Baud, 50, 4_000_000, "");
    }
}
