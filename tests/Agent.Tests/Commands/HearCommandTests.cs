using System.Text;
using CaptureAgent.Agent.Answers;
using CaptureAgent.Agent.Commands;
using CaptureAgent.Agent.Tests.Answers;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Commands;

public sealed class HearCommandTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("hear-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task The_tones_are_written_as_files_and_described_without_a_station()
    {
        var (code, output, _) = await Run("hear --wav tones");

        Assert.Equal(0, code);
        Assert.All(AnswerNames.All, answer =>
        {
            var wave = File.ReadAllBytes(Path.Combine(folder, "tones", AnswerNames.Of(answer) + ".wav"));
            // The default loudness is 60 %.
            Assert.Equal(Heard.Of(answer).Peak * 0.36, Heard.OfFile(wave).Peak, 1e-3);
            Assert.Contains(AnswerNames.MeaningOf(answer), output, StringComparison.Ordinal);
        });
    }

    [Fact]
    public async Task A_folder_that_cannot_be_written_is_named()
    {
        File.WriteAllText(Path.Combine(folder, "tones"), "");

        var (code, _, error) = await Run("hear --wav tones");

        Assert.Equal(2, code);
        Assert.Contains("--wav", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_loudspeaker_that_cannot_be_used_is_told_with_what_to_do()
    {
        File.WriteAllText(Path.Combine(folder, "station.json"), """
            { "answers": { "device": "no-such-device" }, "devices": [ { "id": "scale", "role": "scale", "dialect": "header-comma" } ] }
            """);

        var (code, _, error) = await Run("hear");

        Assert.Equal(3, code);
        Assert.Contains("aplay", error, StringComparison.Ordinal);
    }

    private async Task<(int Code, string Output, string Error)> Run(string arguments)
    {
        using var output = new MemoryStream();
        using var error = new StringWriter();
        var code = await CommandLine.RunAsync(arguments.Split(' '), new Surroundings(output, error, folder, new FakeTimeProvider()));
        return (code, Encoding.UTF8.GetString(output.ToArray()), error.ToString());
    }
}
