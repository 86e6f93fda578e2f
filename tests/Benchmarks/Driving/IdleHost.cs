using Microsoft.Extensions.Hosting;

namespace CaptureAgent.Benchmarks.Driving;

/// <summary>A process with the same host as the agent and nothing to do: what the runtime costs by itself.</summary>
internal static class IdleHost
{
    public const string Name = "idle-host";

    public static int Run()
    {
        using var host = Host.CreateEmptyApplicationBuilder(new HostApplicationBuilderSettings { DisableDefaults = true }).Build();
        host.Run();
        return 0;
    }
}
