using System.Threading.Channels;
using CaptureAgent.Agent.Instruments;
using CaptureAgent.Agent.Links.Bluetooth.Adapters;
using CaptureAgent.Agent.Links.Bluetooth.Bus;
using CaptureAgent.Agent.Links.Bluetooth.Proxies;
using CaptureAgent.Agent.Trace;

namespace CaptureAgent.Agent.Links.Bluetooth.Gatt;

/// <summary>A device that is connected and sends.</summary>
internal sealed class GattSession : ISession
{
    private static readonly TimeSpan Parting = TimeSpan.FromSeconds(0.5);

    private readonly Channel<TraceRecord> values = Channel.CreateUnbounded<TraceRecord>(new() { SingleReader = true });
    private readonly TaskCompletionSource first = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly Central central;
    private readonly Bluez bluez;
    private readonly Adapter adapter;
    private readonly DeviceProxy device;
    private readonly GattPlan plan;
    private readonly BatteryRound battery;
    private readonly Subscriptions subscriptions;
    private readonly IDisposable hold;
    private int resolutions;
    private long heard;

    public GattSession(Central central, Bluez bluez, Adapter adapter, DeviceProxy device, GattPlan plan, BatteryRound battery)
    {
        (this.central, this.bluez, this.adapter, this.device, this.plan, this.battery) = (central, bluez, adapter, device, plan, battery);
        subscriptions = new Subscriptions(central, bluez, device, plan, Take);
        hold = adapter.Discovery.Hold();
        heard = central.Time.GetTimestamp();
    }

    public string? Remark => null;

    /// <summary>Returns when the first value has come.</summary>
    /// <exception cref="LinkException">None came, or the connection was lost.</exception>
    public async Task StartAsync(CancellationToken stop)
    {
        await SubscribeAsync(stop);
        using var over = CancellationTokenSource.CreateLinkedTokenSource(stop);
        var lost = WatchAsync(over.Token);
        try
        {
            await (await Task.WhenAny(first.Task, lost));
            if (!first.Task.IsCompleted)
                throw BluetoothFault.Mute(plan.Address, plan.SuspectAfter);
        }
        finally
        {
            await over.CancelAsync();
            await lost.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    public async Task ListenAsync(ChannelWriter<TraceRecord> output, CancellationToken stop)
    {
        using var over = CancellationTokenSource.CreateLinkedTokenSource(stop);
        var pumping = PumpAsync(output, stop);
        var asking = AskBatteryAsync(over.Token);
        try
        {
            await WatchAsync(stop);
        }
        finally
        {
            // What came before the loss is handed on before the loss is told.
            await over.CancelAsync();
            await asking.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            subscriptions.Dispose();
            values.Writer.TryComplete();
            await pumping;
        }
    }

    public async ValueTask DisposeAsync()
    {
        subscriptions.Dispose();
        hold.Dispose();
        if (bluez.Tree.End is not null || !device.IsConnected)
            return;
        try
        {
            await device.DisconnectAsync(CancellationToken.None).WaitAsync(Parting, central.Time);
        }
        catch (Exception failure) when (failure is Tmds.DBus.Protocol.DBusErrorReplyException or TimeoutException or LinkException)
        {
        }
    }

    private async Task SubscribeAsync(CancellationToken stop)
    {
        resolutions = bluez.Tree.Resolutions(device.Path);
        await subscriptions.StartAsync(stop);
    }

    // Returns when the device has been silent for too long; throws when it is lost.
    private async Task WatchAsync(CancellationToken stop)
    {
        while (true)
        {
            var left = plan.SuspectAfter - central.Time.GetElapsedTime(Volatile.Read(ref heard));
            if (left <= TimeSpan.Zero)
                return;
            try
            {
                var news = await bluez.Tree.WaitAsync(
                    tree => !device.IsConnected ? "lost" : device.IsResolved && tree.Resolutions(device.Path) != resolutions ? "resolved" : null, left, stop);
                if (news == "lost")
                    throw await LossAsync(stop);
                await SubscribeAsync(stop);
            }
            catch (TimeoutException)
            {
                // Heard or silent: the next turn knows.
            }
        }
    }

    // An adapter that was unplugged, or a service that stops, takes its connections down first and says so a moment later.
    private async Task<LinkException> LossAsync(CancellationToken stop)
    {
        try
        {
            await bluez.Tree.WaitAsync(_ => adapter.Trouble(plan.Adapter) is null ? null : "trouble", central.Timings.Reason, stop);
        }
        catch (TimeoutException)
        {
        }

        return bluez.Tree.End ?? adapter.Trouble(plan.Adapter) ?? BluetoothFault.Lost(plan.Address);
    }

    private async Task PumpAsync(ChannelWriter<TraceRecord> output, CancellationToken stop)
    {
        while (await values.Reader.WaitToReadAsync(stop))
        {
            while (values.Reader.TryRead(out var record))
            {
                if (!output.TryWrite(record))
                    await output.WriteAsync(record, stop);
            }
        }
    }

    private async Task AskBatteryAsync(CancellationToken stop)
    {
        while (true)
        {
            if (battery.Remaining is { Ticks: > 0 } wait)
                await Task.Delay(wait, central.Time, stop);
            if (await subscriptions.BatteryAsync(stop) is { } percent)
                values.Writer.TryWrite(new(central.Time.GetUtcNow(), plan.Device, new[] { percent }, BluetoothNeeds.BatteryLevel));
            battery.Done();
        }
    }

    private void Take(DateTimeOffset at, string uuid, byte[] value)
    {
        Volatile.Write(ref heard, central.Time.GetTimestamp());
        values.Writer.TryWrite(new(at, plan.Device, value, uuid));
        if (plan.Needs.Read.Count == 0 || !plan.Needs.Read.Contains(uuid))
            first.TrySetResult();
    }
}
