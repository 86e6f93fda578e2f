using System.CommandLine;
using CaptureAgent.Agent.Answers;
using CaptureAgent.Agent.Answers.Lamp;
using CaptureAgent.Agent.Answers.Sound;
using CaptureAgent.Agent.Answers.Tones;
using CaptureAgent.Agent.Answers.Voice;
using CaptureAgent.Agent.Configuration;
using Microsoft.Extensions.Logging.Abstractions;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>hear</c>: all tones, one after the other, with what they mean.</summary>
internal static class HearCommand
{
    /// <summary>An invented chick, as it is said after a weighing.</summary>
    private static readonly Saying Sample = new("weighed", "AM-0147", 186.4m, 9.2m);

    public static Command Create(Surroundings around)
    {
        var wave = new Option<string?>("--wav") { HelpName = "DIR", Description = "Write the tones as WAV files into this folder, and play nothing." };
        var command = new Command("hear", """
            Plays the five tones that the station answers with and says what each means, shows the lamp's patterns,
            and says a sample sentence if a voice engine is installed. A running agent may go on.

            Examples:
              capture-agent hear
              capture-agent hear --wav tones
            """) { wave };
        var arguments = new StationArguments(command);
        command.SetAction(async (parsed, stop) =>
        {
            var station = arguments.ReadOrDefault(parsed, around);
            var output = parsed.InvocationConfiguration.Output;
            if (parsed.GetValue(wave) is { } folder)
                Write(around.FullPath(folder), station.Answers.Loudness, output);
            else
                await HearAsync(station.Answers, around.Time, output, stop);
            return ExitCode.Done;
        });
        return command;
    }

    private static void Write(string folder, int loudness, TextWriter output)
    {
        try
        {
            Directory.CreateDirectory(folder);
            foreach (var answer in AnswerNames.All)
            {
                var path = Path.Combine(folder, AnswerNames.Of(answer) + ".wav");
                File.WriteAllBytes(path, Wave.File(ToneBook.Samples(answer), Wave.Gain(loudness)));
                output.WriteLine($"{path}: {Describe(answer)}");
            }
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new InputException($"--wav {folder}: cannot be written: {failure.Message} Name a folder that you may write to.");
        }
    }

    private static async Task HearAsync(AnswerOptions answers, TimeProvider time, TextWriter output, CancellationToken stop)
    {
        await using var player = new AplayPlayer(answers.Device, time);
        await using var lamp = LampSources.Create(answers.Lamp) is { } source ? new LampRunner(source, time, NullLogger.Instance) : null;
        try
        {
            foreach (var answer in AnswerNames.All)
            {
                await output.WriteLineAsync($"{AnswerNames.Of(answer),-8} {Describe(answer)}{(lamp is null ? "" : $"; lamp: {LampPattern.WordsFor(answer)}")}");
                await output.FlushAsync(stop);
                lamp?.Show(answer);
                var samples = ToneBook.Samples(answer);
                await player.PlayAsync(Wave.File(samples, Wave.Gain(answers.Loudness)), TimeSpan.FromSeconds(samples.Length / (double)Wave.Rate), stop);
                await (lamp?.Shown ?? Task.CompletedTask);
                await Task.Delay(TimeSpan.FromSeconds(0.7), time, stop);
            }

            if (VoiceEngines.Create(answers.Voice, answers.Language, player, time) is not { } voice)
                return;
            var text = SpokenTexts.In(answers.Language).Of(Sample);
            await output.WriteLineAsync($"{"voice",-8} {text}");
            await voice.SayAsync(text, Math.Max(1, answers.Loudness), stop);
        }
        catch (PlayerException failure)
        {
            throw new UnusableException(failure.Message);
        }
    }

    private static string Describe(Answer answer) => $"{AnswerNames.SoundOf(answer)} = {AnswerNames.MeaningOf(answer)}";
}
