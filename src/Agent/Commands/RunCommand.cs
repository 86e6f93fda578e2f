using System.CommandLine;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Hosting;
using CaptureAgent.Agent.Trace;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Hosting.Systemd;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Console;

namespace CaptureAgent.Agent.Commands;

/// <summary><c>run</c>: captures until it is told to stop.</summary>
internal static class RunCommand
{
    /// <summary>A locked store must not hold up the devices for long; what could not be written is tried again.</summary>
    private static readonly TimeSpan StorePatience = TimeSpan.FromSeconds(1);

    private static readonly TimeSpan ShutdownTime = TimeSpan.FromSeconds(1.8);

    public static Command Create(Surroundings around)
    {
        var record = new Option<string?>("--record") { HelpName = "TRACE", Description = "Write what the devices send to a new trace file, for replay." };
        var events = new Option<string?>("--events") { HelpName = "-", Description = "Print events, one JSON object a line: '-' is standard output." };
        events.AcceptOnlyFromAmong("-");
        var command = new Command("run", """
            Listens to the devices and records every weighing, until it gets SIGTERM or Ctrl-C.
            Devices that are absent are waited for. Logs go to standard error.

            Examples:
              capture-agent run
              capture-agent run --station east-room.json --events - --record morning.ndjson
            """) { record, events };
        var arguments = new StationArguments(command);
        command.SetAction(async (parsed, stop) =>
        {
            var station = arguments.Read(parsed, around, devicesAreOpened: true);
            var clock = new SteadyClock(around.Time);
            using var store = station.OpenStore(clock, StorePatience);
            using var trace = parsed.GetValue(record) is { } path ? TraceWriter.Create(around.FullPath(path)) : null;
            var output = parsed.GetValue(events) is null ? null : new QueuedEvents(around.Output);
            using var host = Build(new RunSetting(station.Options, store, station.StorePath, output, trace), clock, CommandLine.IsVerbose(parsed));
            var service = host.Services.GetRequiredService<CaptureService>();
            await host.RunAsync(stop);
            return service.Fault is { } fault
                ? throw new InvalidOperationException(fault.Message, fault)
                : ExitCode.Done;
        });
        return command;
    }

    private static IHost Build(RunSetting setting, SteadyClock clock, bool verbose)
    {
        var supervision = new Supervision(clock);
        var builder = Host.CreateEmptyApplicationBuilder(new HostApplicationBuilderSettings { DisableDefaults = true });
        builder.Logging.SetMinimumLevel(verbose ? LogLevel.Debug : LogLevel.Information).AddFilter("Microsoft", LogLevel.Warning);
        // What does not start says so in words of ours, without a stack trace.
        if (!verbose)
            builder.Logging.AddFilter("Microsoft.Extensions.Hosting.Internal.Host", LogLevel.Critical);
        // The systemd format gives each line its level for the journal, which adds the time itself.
        if (supervision.IsPresent || SystemdHelpers.IsSystemdService())
            builder.Logging.AddSystemdConsole();
        else
            builder.Logging.AddSimpleConsole(format => (format.SingleLine, format.TimestampFormat, format.UseUtcTimestamp) = (true, "HH:mm:ss'Z' ", true));
        builder.Services
            .Configure<ConsoleLoggerOptions>(console => console.LogToStandardErrorThreshold = LogLevel.Trace)
            .Configure<ConsoleLifetimeOptions>(lifetime => lifetime.SuppressStatusMessages = true)
            .Configure<HostOptions>(host => host.ShutdownTimeout = ShutdownTime)
            .AddSingleton(setting)
            .AddSingleton(clock)
            .AddSingleton(supervision)
            .AddSingleton<CaptureService>()
            .AddHostedService(services => services.GetRequiredService<CaptureService>());
        return builder.Build();
    }
}
