using System.IO.Ports;
using System.Threading.Channels;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Trace;
using Microsoft.Extensions.Logging.Abstractions;

namespace CaptureAgent.Agent.Checks;

/// <summary>Opens each device as a run would, and waits for a line that makes sense.</summary>
internal static class DeviceCheck
{
    private const int Waiting = 1024;

    /// <summary>A radio device is found, connected and asked for its services before it can say anything.</summary>
    private static readonly TimeSpan RadioWait = TimeSpan.FromSeconds(30);

    /// <summary>All devices at once, reported in their order.</summary>
    public static async Task LookAsync(IEnumerable<DeviceOptions> devices, TimeSpan wait, TimeProvider time, CheckReport report, CancellationToken stop)
    {
        using var factory = new LinkFactory(time, NullLogger.Instance);
        var looks = devices.Select(device => (device, look: LookAsync(device, factory.Create(device), IsRadio(device) && wait < RadioWait ? RadioWait : wait, time, stop))).ToList();
        foreach (var (device, look) in looks)
        {
            var (isGood, text) = await look;
            if (isGood)
                report.Good(device.Id, text);
            else
                report.Wrong(device.Id, text);
        }
    }

    internal static async Task<(bool IsGood, string Text)> LookAsync(DeviceOptions device, ILink link, TimeSpan wait, TimeProvider time, CancellationToken stop)
    {
        var records = Channel.CreateBounded<TraceRecord>(Waiting);
        var sampler = new ReadingSampler(device);
        TraceRecord? state = null;
        using var limit = new CancellationTokenSource(wait, time);
        using var over = CancellationTokenSource.CreateLinkedTokenSource(limit.Token, stop);
        var running = link.RunAsync(records.Writer, over.Token);
        try
        {
            while (sampler.Understood is null)
            {
                var record = await records.Reader.ReadAsync(over.Token);
                state = record.Link is null ? state : record;
                sampler.Take(record);
                // An absent device is not waited for; a run would.
                if (record.Link is LinkChange.Down)
                    break;
            }
        }
        catch (OperationCanceledException) when (!stop.IsCancellationRequested)
        {
        }

        await over.CancelAsync();
        await running;
        return Judge(device, state, sampler, wait);
    }

    private static (bool IsGood, string Text) Judge(DeviceOptions device, TraceRecord? state, ReadingSampler sampler, TimeSpan wait)
    {
        var path = device.Connection!.Path ?? device.Connection.Address!;
        return (state, sampler) switch
        {
            ({ Link: LinkChange.Down }, _) => (false, state!.Detail + Holder(state, path) + Others(device, state)),
            (null, _) when IsRadio(device) => (false, $"{path} has sent nothing within {wait.TotalSeconds:0.#} s. Switch it on, bring it near, and put something on the scale or warm the probe."),
            (null, _) => (false, $"{path} did not open within {wait.TotalSeconds:0.#} s. Plug it in again."),
            (_, { Understood: { } shown }) => (true, $"{path} is open and {shown}{Remark(state)}"),
            (_, { OtherDialect: { } other }) => (false, $"'{sampler.NotUnderstood}' is not of the dialect {device.Dialect}, but {other} reads it. Write \"dialect\": \"{other}\" in station.json."),
            (_, { NotUnderstood: { } line }) => (false, $"'{line}' is not of the dialect {device.Dialect}. Check dialect, baud, dataBits and parity against the device's own settings."),
            (_, { HasHeard: true }) => (false, "bytes come, but no line ends. Check baud, dataBits and parity, and that the device ends its lines with CR or LF."),
            _ when device.Role == "scanner" => (true, $"{path} is open; scan a code while this check runs to see it{Remark(state)}"),
            _ => (false, $"{path} is open, but nothing came within {wait.TotalSeconds:0.#} s. Switch the device on, set it to send continuously, and check cable and baud."),
        };
    }

    private static bool IsRadio(DeviceOptions device) => device.Connection?.Kind == "bluetooth";

    private static string Remark(TraceRecord? state) => state?.Detail is { } remark ? $" ({remark})" : "";

    // For a path that is not there: the one that was meant may be among these.
    private static string Others(DeviceOptions device, TraceRecord state)
    {
        if (device.Connection!.Kind != "serial" || state.Cause != LinkCause.Absent)
            return "";
        var names = SerialPort.GetPortNames();
        return names.Length == 0 ? " This machine has no serial port now." : $" Serial ports here: {string.Join(", ", names.Order(StringComparer.Ordinal))}.";
    }

    private static string Holder(TraceRecord state, string path) =>
        state.Cause == LinkCause.Busy && DeviceHolders.Of(path) is { Count: > 0 } holders
            ? $" Now it is open in {string.Join(", ", holders)}."
            : "";
}
