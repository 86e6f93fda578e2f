using CaptureAgent.Agent.Instruments;
using CaptureAgent.Agent.Links.Bluetooth.Bus;
using CaptureAgent.Agent.Links.Bluetooth.Proxies;
using Tmds.DBus.Protocol;

namespace CaptureAgent.Agent.Links.Bluetooth.Gatt;

/// <summary>Makes the characteristics of a connected device notify, and reads and writes what its dialect asks for. To be done after every resolving of services.</summary>
/// <param name="take">Gets every value with its UUID and its moment.</param>
internal sealed class Subscriptions(Central central, Bluez bluez, DeviceProxy device, GattPlan plan, Action<DateTimeOffset, string, byte[]> take) : IDisposable
{
    private readonly List<string> listened = [];

    /// <exception cref="LinkException">The device has not what is wanted, or does not give it.</exception>
    public async Task StartAsync(CancellationToken stop)
    {
        Dispose();
        var there = await AppearedAsync(stop);
        // Read first: what a value means may depend on it.
        foreach (var uuid in plan.Needs.Read)
            await ReadAsync(there.FirstOrDefault(one => one.Uuid == uuid && one.CanRead), stop);
        foreach (var uuid in Wanted(there))
            await NotifyAsync([.. there.Where(one => one.Uuid == uuid)], stop);
        // A device whose services are said to be resolved and that has none did not answer.
        if (there.Count == 0)
            throw BluetoothFault.NotConnecting(plan.Address);
        if (listened.Count == 0)
            throw BluetoothFault.Lacking(plan.Address, plan.Needs.Subscribe.DefaultIfEmpty("that notify"), [.. there.Select(one => one.Uuid).Distinct(StringComparer.Ordinal)]);
        if (plan.Needs.Start is { } start && there.FirstOrDefault(one => one.Uuid == start.Characteristic) is { } place)
            await GuardAsync(() => place.WriteAsync(start.Bytes, stop));
    }

    /// <summary>Percent, or null if the device does not tell.</summary>
    public async Task<byte?> BatteryAsync(CancellationToken stop)
    {
        if (device.Battery is { } known)
            return known;
        var place = Characteristics().FirstOrDefault(static one => one.Uuid == BluetoothNeeds.BatteryLevel && one.CanRead);
        try
        {
            return place is null ? null : (await place.ReadAsync(stop)).FirstOrDefault();
        }
        catch (Exception failure) when (failure is DBusErrorReplyException or TimeoutException)
        {
            return null;
        }
    }

    public void Dispose()
    {
        foreach (var path in listened)
            bluez.Unlisten(path);
        listened.Clear();
    }

    // Services may be said to be resolved a moment before their objects are on the bus.
    private async Task<IReadOnlyList<CharacteristicProxy>> AppearedAsync(CancellationToken stop)
    {
        try
        {
            return await bluez.Tree.WaitAsync(_ => Characteristics() is { } there && Wanted(there).Any() ? there : null, central.Timings.Appearing, stop);
        }
        catch (TimeoutException)
        {
            return Characteristics();
        }
    }

    private IReadOnlyList<CharacteristicProxy> Characteristics() =>
        [.. bluez.Tree.Below(device.Path, BluezName.Characteristic).Select(path => new CharacteristicProxy(bluez, path, central.Timings))];

    private IEnumerable<string> Wanted(IReadOnlyList<CharacteristicProxy> there)
    {
        var notifying = there.Where(one => one.CanNotify && (plan.Service is null || one.Service is null || one.Service == plan.Service)).Select(static one => one.Uuid).Distinct(StringComparer.Ordinal);
        return plan.Needs.Subscribe.Count == 0
            ? notifying.Where(static uuid => uuid is not ("2a05" or BluetoothNeeds.BatteryLevel))
            : notifying.Where(plan.Needs.Subscribe.Contains);
    }

    // Two objects of one UUID: what is left of an older connection beside the live one. One of them is listened to, or each value would count twice.
    private async Task NotifyAsync(List<CharacteristicProxy> same, CancellationToken stop)
    {
        foreach (var one in same.Where(one => one.CanNotify && (plan.Service is null || one.Service is null || one.Service == plan.Service)))
        {
            var uuid = one.Uuid;
            bluez.Listen(one.Path, (at, value) => take(at, uuid, value));
            listened.Add(one.Path);
            if (await GuardAsync(() => one.StartNotifyAsync(stop), retryPaired: stop))
                return;
            bluez.Unlisten(one.Path);
            listened.Remove(one.Path);
        }
    }

    private async Task ReadAsync(CharacteristicProxy? place, CancellationToken stop)
    {
        if (place is null)
            return;
        await GuardAsync(async () => take(central.Time.GetUtcNow(), place.Uuid, await place.ReadAsync(stop)));
    }

    // False if the device refuses; a device that asks to be paired is paired, once, and asked again.
    private async Task<bool> GuardAsync(Func<Task> act, CancellationToken? retryPaired = null)
    {
        try
        {
            await act();
            return true;
        }
        catch (DBusErrorReplyException error) when (retryPaired is { } stop && BluezError.IsAboutPairing(error) && !device.IsPaired)
        {
            await PairAsync(stop);
            return await GuardAsync(act);
        }
        catch (DBusErrorReplyException error) when (retryPaired is not null && BluezError.IsAboutPairing(error))
        {
            throw BluetoothFault.Unpaired(plan.Address);
        }
        catch (Exception failure) when (failure is DBusErrorReplyException or TimeoutException)
        {
            return false;
        }
    }

    private async Task PairAsync(CancellationToken stop)
    {
        try
        {
            await device.PairAsync(stop);
            await device.TrustAsync(stop);
        }
        catch (Exception failure) when (failure is DBusErrorReplyException or TimeoutException)
        {
            throw BluetoothFault.Unpaired(plan.Address);
        }
    }
}
