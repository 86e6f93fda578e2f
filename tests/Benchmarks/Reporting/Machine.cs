using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;

namespace CaptureAgent.Benchmarks.Reporting;

/// <summary>Where and when a figure was taken; a figure without it says nothing.</summary>
internal static class Machine
{
    /// <summary>The load averages of 1, 5 and 15 minutes, as Linux tells them.</summary>
    public static string Load() => string.Join(' ', File.ReadAllText("/proc/loadavg").Split(' ')[..3]);

    /// <param name="loadBefore">When the measuring began.</param>
    /// <param name="folder">Whose file system is named.</param>
    public static string Describe(string loadBefore, string folder) => string.Create(CultureInfo.InvariantCulture, $"""
        | | |
        | --- | --- |
        | date | {DateTime.UtcNow:yyyy-MM-dd HH:mm} UTC |
        | commit | {Commit()} |
        | processor | {Processor()}, {Environment.ProcessorCount} cores |
        | load (1, 5, 15 min) | before {loadBefore}; after {Load()} |
        | system | {RuntimeInformation.OSDescription}, {RuntimeInformation.ProcessArchitecture} |
        | runtime | {RuntimeInformation.FrameworkDescription} |
        | file system | {new DriveInfo(folder).DriveFormat} |
        """);

    private static string Processor() => File.ReadLines("/proc/cpuinfo")
        .Where(line => line.StartsWith("model name", StringComparison.Ordinal))
        .Select(line => line[(line.IndexOf(':', StringComparison.Ordinal) + 1)..].Trim())
        .FirstOrDefault("not named");

    private static string Commit()
    {
        var changed = Git("status", "--porcelain", "--", "src", "simulators", "tests/Benchmarks/*.cs", "tests/Benchmarks/*.csproj").Length > 0;
        return Git("rev-parse", "--short=12", "HEAD") + (changed ? " with changes" : "");
    }

    private static string Git(params string[] arguments)
    {
        var start = new ProcessStartInfo("git", arguments) { RedirectStandardOutput = true, WorkingDirectory = ResultFile.Root };
        using var git = Process.Start(start)!;
        return git.StandardOutput.ReadToEnd().Trim();
    }
}
