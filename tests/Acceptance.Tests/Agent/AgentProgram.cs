using System.Diagnostics;
using System.Reflection;
using System.Runtime.InteropServices;
using Xunit;

namespace CaptureAgent.Acceptance.Tests.Agent;

/// <summary>What a command that ran to its end left behind.</summary>
internal sealed record Ended(int Code, string Output, string Error)
{
    public IReadOnlyList<string> Lines => Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
}

/// <summary>The built executable. <c>CAPTURE_AGENT_EXECUTABLE</c> in the environment names another one, such as a native build.</summary>
internal static class AgentProgram
{
    /// <summary>For a command that neither waits nor weighs; long, because the machine may be busy.</summary>
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(180);

    private static readonly string? Named = Environment.GetEnvironmentVariable("CAPTURE_AGENT_EXECUTABLE") is { Length: > 0 } named ? Path.GetFullPath(named) : null;

    public static string Executable { get; } = Named ?? Built();

    /// <summary>For <c>run</c> after SIGTERM: two seconds; the debug build compiles its end first, beside others.</summary>
    public static TimeSpan AllowedToEnd { get; } = TimeSpan.FromSeconds(Named is null ? 10 : 2);

    /// <param name="wrapper">A program that starts the agent, with its own arguments; empty: none.</param>
    public static ProcessStartInfo Start(string folder, IReadOnlyList<string> wrapper, IEnumerable<string> arguments)
    {
        IReadOnlyList<string> line = [.. wrapper, Executable, .. arguments];
        var start = new ProcessStartInfo(line[0], line.Skip(1))
        {
            WorkingDirectory = folder,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        // The apphost finds the runtime that runs this test, wherever that is installed.
        start.Environment["DOTNET_ROOT"] = Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", ".."));
        return start;
    }

    /// <summary>Runs a command to its end.</summary>
    /// <exception cref="TimeoutException">It did not end.</exception>
    public static async Task<Ended> RunAsync(string folder, params string[] arguments)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        limit.CancelAfter(Limit);
        using var process = Process.Start(Start(folder, [], arguments))!;
        process.StandardInput.Close();
        try
        {
            var output = process.StandardOutput.ReadToEndAsync(limit.Token);
            var error = process.StandardError.ReadToEndAsync(limit.Token);
            await process.WaitForExitAsync(limit.Token);
            return new Ended(process.ExitCode, await output, await error);
        }
        catch (OperationCanceledException) when (!TestContext.Current.CancellationToken.IsCancellationRequested)
        {
            throw new TimeoutException($"`capture-agent {string.Join(' ', arguments)}` did not end within {Limit.TotalSeconds} s.");
        }
        finally
        {
            if (!process.HasExited)
                process.Kill(entireProcessTree: true);
        }
    }

    private static string Built()
    {
        var assembly = typeof(AgentProgram).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(data => data.Key == "AgentAssembly").Value!;
        return Path.ChangeExtension(assembly, null);
    }
}
