using CaptureAgent.Agent.Links.Bluetooth.Adapters;
using CaptureAgent.Agent.Links.Bluetooth.Bus;
using CaptureAgent.Agent.Links.Bluetooth.Proxies;
using Microsoft.Extensions.Logging;
using Tmds.DBus.Protocol;

namespace CaptureAgent.Agent.Links.Bluetooth.Gatt;

/// <summary>From a device on the air to resolved services, past the ways in which BlueZ stumbles. One device at a time, with discovery off.</summary>
internal sealed partial class Connecting(Central central, Bluez bluez, Adapter adapter, DeviceProxy device, GattPlan plan, ILogger logger)
{
    private const int MostTries = 4;

    /// <summary>Ends a connection, or a pending try; whether it existed does not matter.</summary>
    public static async Task DisconnectAsync(Central central, Bluez bluez, DeviceProxy device, CancellationToken stop)
    {
        try
        {
            await device.DisconnectAsync(stop);
            await bluez.Tree.WaitAsync(_ => device.IsConnected ? null : "off", central.Timings.Appearing, stop);
        }
        catch (Exception failure) when (failure is DBusErrorReplyException or TimeoutException)
        {
        }
    }

    /// <exception cref="LinkException">It did not come about.</exception>
    public async Task ConnectAsync(CancellationToken stop)
    {
        using var alone = await adapter.Discovery.PauseAsync(stop);
        for (var tried = 1; ; tried++)
        {
            try
            {
                await device.ConnectAsync(stop);
                break;
            }
            catch (DBusErrorReplyException error) when (BluezError.IsAlreadyConnected(error))
            {
                break;
            }
            catch (DBusErrorReplyException error)
            {
                LogRefused(plan.Device, tried, BluezError.Text(error));
                await RecoverAsync(error, tried, stop);
            }
            catch (TimeoutException)
            {
                await DisconnectAsync(central, bluez, device, stop);
                throw BluetoothFault.NotConnecting(plan.Address);
            }
        }

        await ResolvedAsync(stop);
    }

    // Returns if another try at once is worth it.
    private async Task RecoverAsync(DBusErrorReplyException error, int tried, CancellationToken stop)
    {
        if (BluezError.IsObjectGone(error))
            throw BluetoothFault.NotHeard(plan.Address);
        if (BluezError.IsNotReady(error))
            throw BluetoothFault.AdapterOff(adapter.Address);
        if (BluezError.IsAboutPairing(error))
            throw BluetoothFault.Unpaired(plan.Address);
        if (tried >= MostTries || !(BluezError.IsPassing(error) || BluezError.IsInProgress(error)))
            throw BluetoothFault.NotConnecting(plan.Address);

        if (BluezError.IsInProgress(error))
            await FreeAsync(tried, stop);
        else
            await bluez.Tree.WaitAsync(_ => device.IsConnected ? null : "off", central.Timings.Appearing, stop);
    }

    // An older try is pending. Ending it helps; if not, forgetting the device does, unless that would cost a bond.
    private async Task FreeAsync(int tried, CancellationToken stop)
    {
        await DisconnectAsync(central, bluez, device, stop);
        if (tried == MostTries - 1 && !device.IsPaired)
        {
            await ForgetAsync(stop);
            throw BluetoothFault.NotConnecting(plan.Address);
        }

        await Task.Delay(central.Timings.Breath, central.Time, stop);
    }

    private async Task ForgetAsync(CancellationToken stop)
    {
        try
        {
            await adapter.ForgetAsync(device, stop);
        }
        catch (Exception failure) when (failure is DBusErrorReplyException or TimeoutException)
        {
        }
    }

    private async Task ResolvedAsync(CancellationToken stop)
    {
        var answered = central.Time.GetTimestamp();
        try
        {
            // The answer to the call comes before the news of the connection, often by some milliseconds.
            await SeenAsync(() => device.IsConnected, answered, central.Timings.Appearing, stop);
            await SeenAsync(() => device.IsConnected ? device.IsResolved : throw BluetoothFault.NotConnecting(plan.Address), answered, central.Timings.Resolving, stop);
        }
        catch (TimeoutException)
        {
            LogUnresolved(plan.Device);
            await DisconnectAsync(central, bluez, device, stop);
            throw BluetoothFault.NotConnecting(plan.Address);
        }
        catch (DBusErrorReplyException error)
        {
            throw BluezError.IsObjectGone(error) ? BluetoothFault.NotHeard(plan.Address) : BluetoothFault.NotConnecting(plan.Address);
        }
    }

    // No news need come of what is so already, as when somebody else had connected the device: so it is asked for as well.
    private async Task SeenAsync(Func<bool> isSo, long since, TimeSpan limit, CancellationToken stop)
    {
        while (true)
        {
            await device.RefreshAsync(stop);
            var left = limit - central.Time.GetElapsedTime(since);
            try
            {
                await bluez.Tree.WaitAsync(_ => isSo() ? "so" : null, left < central.Timings.Asking ? left : central.Timings.Asking, stop);
                return;
            }
            catch (TimeoutException) when (left > central.Timings.Asking)
            {
            }
        }
    }

    [LoggerMessage(140, LogLevel.Debug, "{Device}: try {Tried} to connect was refused. {Error}")]
    private partial void LogRefused(string device, int tried, string error);

    [LoggerMessage(141, LogLevel.Debug, "{Device}: connected, but its services were not resolved in time")]
    private partial void LogUnresolved(string device);
}
