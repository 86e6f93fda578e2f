using System.Globalization;
using CaptureAgent.Benchmarks.Radio;
using CaptureAgent.Benchmarks.Reporting;
using CaptureAgent.Simulators.Bluetooth.Bus;

namespace CaptureAgent.Benchmarks;

/// <summary>Bluetooth against a stand-in for BlueZ on a real dbus-daemon: delay, outages, many connections, idle cost.</summary>
internal static class Bluetooth
{
    private const double TargetDelayMilliseconds = 5, TargetReconnectSeconds = 3, TargetIdlePercent = 0.5;

    /// <param name="native">A natively compiled capture-agent; null: only the managed one is measured.</param>
    public static async Task<int> RunAsync(string? native)
    {
        if (!PrivateBus.IsThere)
        {
            Console.Error.WriteLine($"dbus-daemon is not there: {PrivateBus.InstallLine}");
            return 1;
        }

        var load = Machine.Load();
        Console.WriteLine("delay ...");
        var delay = await Delay.MeasureAsync();
        Console.WriteLine("outages ...");
        var outages = await Outages.MeasureAsync();
        Console.WriteLine("connections ...");
        var cycles = await Cycles.MeasureAsync();
        Console.WriteLine("idle ...");
        var idle = RadioIdle.Measure(null);
        var compiled = native is null ? null : RadioIdle.Measure(Path.GetFullPath(native));

        ResultFile.Write("bluetooth", Machine.Describe(load, Path.GetTempPath()), string.Create(CultureInfo.InvariantCulture, $"""
            The central of the agent and a stand-in for BlueZ (simulators/Bluetooth) with a real dbus-daemon between them. What is measured is the agent and the bus, not a radio.

            ## From notification to observation

            From before the stand-in sends a value to after the core has taken the reading of it; both ends in this process. The baseline is a bare client of the same library that only waits for the signal.

            {Spread.Head}
            {delay.Observed.Row("notification ... reading in the core")}
            {delay.Bare.Row("baseline: notification ... signal in a bare client")}

            Target: {TargetDelayMilliseconds:0} ms median.

            ## Out of range for 10 s

            From the device's return to its first reading; every second time its object had dropped off the bus meanwhile. The baseline knows the moment of the return and connects at once: what the stand-in itself takes, with values sent every {Outages.IntervalMilliseconds} ms.

            {Spread.Head}
            {outages.Returned.Row("return ... first reading")}
            {outages.Known.Row("baseline: return ... first value, told when to connect")}

            Target: {TargetReconnectSeconds:0} s median.

            ## {cycles.Count} connections, each dropped after {Cycles.ValuesEach} values, without the pauses between failed tries

            | | |
            | --- | --- |
            | values sent to a subscribed link | {cycles.Sent} |
            | readings that came | {cycles.Received} |
            | lost | {cycles.Lost} |
            | doubled or out of order | {cycles.Doubled} |
            | time a connection | {cycles.MillisecondsEach:0} ms |

            Memory in use after a full collection, in kB; the baseline is the stand-in and the harness with a bare client.

            | connections | {string.Join(" | ", Cycles.Points)} |
            | --- | {string.Join(" | ", Cycles.Points.Select(static _ => "---"))} |
            | agent | {string.Join(" | ", cycles.Kilobytes)} |
            | baseline: bare client | {string.Join(" | ", cycles.BaselineKilobytes)} |

            ## Idle

            `capture-agent run` with a scale at 10 Hz and a probe at 1 Hz, both by Bluetooth, for {RadioIdle.Seconds:0} s; stand-in and bus are other processes.

            | process | of a core |
            | --- | --- |
            | agent, two devices | {idle.AgentPercent:0.00} % |
            | native agent, two devices | {(compiled is null ? "not measured" : string.Create(CultureInfo.InvariantCulture, $"{compiled.AgentPercent:0.00} %"))} |
            | baseline: a process with the same host and no device | {idle.HostPercent:0.00} % |

            User and system time are from /proc/PID/stat. Target: {TargetIdlePercent:0.0} % of a core.
            """));
        return 0;
    }
}
