using CaptureAgent.Agent.Answers.Sound;
using CaptureAgent.Agent.Tests.Support;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Answers;

/// <summary>The real player over real processes: scripts in the place of aplay.</summary>
[System.Runtime.Versioning.SupportedOSPlatform("linux")]
public sealed class AplayPlayerTests : IDisposable
{
    private static readonly TimeSpan Second = TimeSpan.FromSeconds(1);

    private readonly string folder = Directory.CreateTempSubdirectory("aplay-").FullName;
    private readonly FakeTimeProvider time = new();
    private readonly byte[] wave = new byte[200_000];

    public AplayPlayerTests() => new Random(1).NextBytes(wave);

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Every_byte_goes_to_the_programs_input_and_the_device_is_named()
    {
        await using var player = new AplayPlayer("speaker", time, Script($"echo \"$@\" > {folder}/words; cat > {folder}/heard"));
        player.Prepare();

        await player.PlayAsync(wave, Second, TestContext.Current.CancellationToken);

        Assert.Equal(wave, await File.ReadAllBytesAsync(Path.Combine(folder, "heard"), TestContext.Current.CancellationToken));
        Assert.Contains("-D speaker", await File.ReadAllTextAsync(Path.Combine(folder, "words"), TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_that_hangs_is_ended_and_named()
    {
        await using var player = new AplayPlayer("default", time, Script("exec sleep 600"));
        var playing = player.PlayAsync(wave, Second, TestContext.Current.CancellationToken);

        await time.AdvanceUntilAsync(() => playing.IsCompleted, TestContext.Current.CancellationToken);
        Assert.Contains("did not end", (await Assert.ThrowsAsync<PlayerException>(() => playing)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_the_program_says_is_passed_on_with_a_remedy()
    {
        await using var player = new AplayPlayer("nowhere", time, Script("echo 'audio open error: No such device' >&2; exit 1"));

        var fault = await Assert.ThrowsAsync<PlayerException>(() => player.PlayAsync(wave, Second, TestContext.Current.CancellationToken));

        Assert.Contains("No such device", fault.Message, StringComparison.Ordinal);
        Assert.Contains("answers.device", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_missing_program_is_told_with_the_line_that_installs_it()
    {
        await using var player = new AplayPlayer("default", time, Path.Combine(folder, "none"));
        player.Prepare();

        Assert.Contains("apt install alsa-utils", (await Assert.ThrowsAsync<PlayerException>(() => player.PlayAsync(wave, Second, TestContext.Current.CancellationToken))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_sound_that_is_cut_short_is_no_fault()
    {
        using var cut = new CancellationTokenSource();
        await using var player = new AplayPlayer("default", time, Script("exec sleep 600"));
        var playing = player.PlayAsync(wave, Second, cut.Token);

        await cut.CancelAsync();
        await playing;
    }

    private string Script(string lines)
    {
        var path = Path.Combine(folder, "player");
        File.WriteAllText(path, $"#!/bin/sh\n{lines}\n");
        File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        return path;
    }
}
