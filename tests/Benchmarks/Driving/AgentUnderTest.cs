using System.Diagnostics;
using System.Runtime.InteropServices;

namespace CaptureAgent.Benchmarks.Driving;

/// <summary>The real executable as a child process.</summary>
internal sealed partial class AgentUnderTest : IDisposable
{
    private const int Terminate = 15;

    private readonly Process process;

    private AgentUnderTest(Process process) => this.process = process;

    public int Id => process.Id;

    /// <summary>Its events, line by line.</summary>
    public StreamReader Events => process.StandardOutput;

    /// <summary>Starts <c>run</c> in a folder that has a station.json, and returns when the agent is ready.</summary>
    /// <param name="folder">Its working directory.</param>
    /// <param name="native">A natively compiled executable; null: the one built with this project.</param>
    public static AgentUnderTest Run(string folder, string? native = null)
    {
        var start = Start(folder, native, "run", "--events", "-");
        start.RedirectStandardError = true;
        var process = Process.Start(start)!;
        process.ErrorDataReceived += (_, _) => { };
        process.BeginErrorReadLine();
        var agent = new AgentUnderTest(process);
        while (agent.Events.ReadLine() is { } line)
        {
            if (line.Contains("\"ready\"", StringComparison.Ordinal))
                return agent;
        }

        throw new InvalidOperationException("The agent ended before it was ready.");
    }

    /// <summary>Runs one command to its end; what it prints is thrown away as it comes.</summary>
    public static void Do(string folder, params string[] arguments) => DoWith(null, folder, arguments);

    /// <param name="native">A natively compiled executable; null: the one built with this project.</param>
    public static void DoWith(string? native, string folder, params string[] arguments)
    {
        using var process = Process.Start(Start(folder, native, arguments))!;
        process.StandardOutput.BaseStream.CopyTo(Stream.Null);
        process.WaitForExit();
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"capture-agent {string.Join(' ', arguments)} ended with {process.ExitCode}.");
    }

    /// <summary>Starts this program again, as a process to compare with.</summary>
    public static Process StartThis(string argument) => Process.Start(new ProcessStartInfo(Host(), [typeof(AgentUnderTest).Assembly.Location, argument]) { RedirectStandardOutput = true })!;

    /// <summary>Processor time of a process so far, all threads: as counted in ticks of 10 ms, and as the scheduler counts it.</summary>
    public static (double Ticks, double Scheduled) ProcessorSeconds(int id)
    {
        // The name in parentheses may hold blanks; behind it, utime and stime are fields 14 and 15 (proc(5)).
        var stat = File.ReadAllText($"/proc/{id}/stat");
        var fields = stat[(stat.LastIndexOf(')') + 2)..].Split(' ');
        var scheduled = Directory.EnumerateDirectories($"/proc/{id}/task").Sum(OnProcessor);
        return ((long.Parse(fields[11], null) + long.Parse(fields[12], null)) / 100.0, scheduled / 1e9);
    }

    /// <summary>Ends it as a service manager does.</summary>
    public void Dispose()
    {
        _ = Signal(process.Id, Terminate);
        if (!process.WaitForExit(TimeSpan.FromSeconds(5)))
            process.Kill();
        process.Dispose();
    }

    private static double OnProcessor(string task)
    {
        try
        {
            return double.Parse(File.ReadAllText(Path.Combine(task, "schedstat")).Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture);
        }
        catch (IOException)
        {
            return 0; // A thread that has just ended.
        }
    }

    private static ProcessStartInfo Start(string folder, string? native, params string[] arguments) =>
        new(native ?? Host(), native is null ? [Path.Combine(AppContext.BaseDirectory, "capture-agent.dll"), .. arguments] : arguments)
        {
            WorkingDirectory = folder,
            RedirectStandardOutput = true,
        };

    // The host that runs this program: an installation that is not on the path works too.
    private static string Host() => Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..", "dotnet"));

    [LibraryImport("libc", EntryPoint = "kill", SetLastError = true)]
    private static partial int Signal(int process, int signal);
}
