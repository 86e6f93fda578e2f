using System.Diagnostics;
using System.Text.RegularExpressions;
using CaptureAgent.Acceptance.Tests.Agent;
using CaptureAgent.Acceptance.Tests.Bench;
using Xunit;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>A kill cannot show a missing sync, for the kernel keeps what was written; the system calls themselves can.</summary>
public sealed partial class SyncedTests
{
    private const string Missing = "strace is not there; `apt-get install -y --no-install-recommends strace` installs it.";

    [Fact(Timeout = 600_000)]
    public async Task The_write_ahead_log_is_synced_before_the_weighing_is_told()
    {
        Assert.SkipUnless(await RunsAsync("strace", "--version"), Missing);
        Assert.SkipUnless(await RunsAsync("strace", "-o", "/dev/null", "true"), "This machine lets no process be traced (ptrace(2)): run the tests as root, or outside the container.");
        using var station = new Station();
        await station.ImportAsync();
        await using var keeper = new Keeper(station);
        // -D: the agent stays our own child, so that SIGTERM reaches it; -y: descriptors with their paths.
        string[] tracer = ["strace", "-D", "-f", "-y", "-s", "4096", "-e", "trace=pwrite64,write,fsync,fdatasync", "-o", station.File("calls.txt")];
        await using var agent = new RunningAgent(station.Folder, [], tracer);
        await keeper.BeginAsync(agent);
        Keeper.AssertAccepted(await keeper.WeighAsync(agent, Station.Amazon, 186.4), Station.Amazon, 186.4, within: 0.6);
        Keeper.AssertAccepted(await keeper.WeighAsync(agent, Station.Conure, 58.7), Station.Conure, 58.7, within: 0.3);
        Assert.Equal(0, (await agent.TerminateAsync()).Code);

        AssertSyncedBeforeTold(await ReadCallsAsync(station.File("calls.txt")), weighings: 2);
    }

    /// <summary>Between the event before and the weighing, the log is written, then synced with success, and only then the line begins.</summary>
    private static void AssertSyncedBeforeTold(IReadOnlyList<string> calls, int weighings)
    {
        int written = -1, synced = -1, told = 0;
        Dictionary<string, string> unfinished = [];
        for (var i = 0; i < calls.Count; i++)
        {
            var process = calls[i].Split(' ', 2)[0];
            if (calls[i].Contains("<unfinished ...>", StringComparison.Ordinal))
                unfinished[process] = calls[i];
            var whole = calls[i].Contains(" resumed>", StringComparison.Ordinal) ? unfinished.GetValueOrDefault(process, "") + calls[i] : calls[i];
            if (LogWrite().IsMatch(whole))
                written = i;
            else if (LogSync().IsMatch(whole) && whole.EndsWith("= 0", StringComparison.Ordinal))
                synced = i;
            else if (whole == calls[i] && ToldWeighing().IsMatch(whole))
            {
                Assert.True(written >= 0, $"A weighing was told, but nothing was written to the log since the one before: {whole}");
                Assert.True(synced > written, $"The weighing was told before the log was synced:\n{string.Join('\n', calls.Skip(Math.Max(0, written - 3)).Take(i - written + 6))}");
                (written, synced) = (-1, -1);
                told++;
            }
        }

        Assert.Equal(weighings, told);
    }

    // The tracer writes its last lines after the agent has ended.
    private static async Task<IReadOnlyList<string>> ReadCallsAsync(string path)
    {
        for (var tries = 0; ; tries++)
        {
            var lines = await File.ReadAllLinesAsync(path, TestContext.Current.CancellationToken);
            if (lines is [.., var last] && last.Contains("+++ exited with 0 +++", StringComparison.Ordinal))
                return lines;
            Assert.True(tries < 100, "The trace of system calls does not end.");
            await Keeper.WaitAsync(0.1);
        }
    }

    private static async Task<bool> RunsAsync(string program, params string[] arguments)
    {
        try
        {
            using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
            await process.WaitForExitAsync(TestContext.Current.CancellationToken);
            return process.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }

    [GeneratedRegex(@"\bpwrite64\(\d+<[^>]*-wal>")]
    private static partial Regex LogWrite();

    [GeneratedRegex(@"\bf(data)?sync\(\d+<[^>]*-wal>")]
    private static partial Regex LogSync();

    [GeneratedRegex(@"\bwrite\(\d+<(pipe|socket):.*\\""event\\"":\\""weighing\\""")]
    private static partial Regex ToldWeighing();
}
