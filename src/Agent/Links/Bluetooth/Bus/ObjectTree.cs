using Tmds.DBus.Protocol;

namespace CaptureAgent.Agent.Links.Bluetooth.Bus;

/// <summary>BlueZ's objects as its signals tell of them. Written by the bus's reading loop, read by everyone; every change wakes those who wait.</summary>
internal sealed class ObjectTree(TimeProvider time)
{
    private readonly Lock gate = new();
    private readonly Dictionary<string, BusInterfaces> objects = new(StringComparer.Ordinal);
    private readonly Dictionary<string, long> heard = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> resolutions = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> ages = new(StringComparer.Ordinal);
    private TaskCompletionSource changed = NewPulse();
    private LinkException? end;

    /// <summary>Why nothing more will come; null while the service lives.</summary>
    public LinkException? End
    {
        get
        {
            lock (gate)
                return end;
        }
    }

    public void Load(Dictionary<string, BusInterfaces> all)
    {
        lock (gate)
        {
            // A device before what it has, whose age is counted in resolvings of the device.
            foreach (var (path, interfaces) in all.OrderBy(static one => one.Key, StringComparer.Ordinal))
                Put(path, interfaces);
        }

        Pulse();
    }

    public void Add(string path, BusInterfaces interfaces)
    {
        lock (gate)
        {
            Put(path, interfaces);
            if (interfaces.ContainsKey(BluezName.Device))
                Hear(path);
        }

        Pulse();
    }

    public void Remove(string path, string[] interfaces)
    {
        lock (gate)
        {
            if (!objects.TryGetValue(path, out var known))
                return;
            foreach (var name in interfaces)
                known.Remove(name);
            if (known.Count == 0)
            {
                objects.Remove(path);
                ages.Remove(path);
                resolutions.Remove(path);
                heard.Remove(path);
            }
        }

        Pulse();
    }

    public void Change(in PropertyChange change)
    {
        lock (gate)
        {
            var wasResolved = IsResolved(change.Path);
            var interfaces = Interfaces(change.Path);
            if (!interfaces.TryGetValue(change.Interface, out var properties))
                interfaces[change.Interface] = properties = new(StringComparer.Ordinal);
            foreach (var (name, value) in change.Set)
                properties[name] = value;
            foreach (var name in change.Unset)
                properties.Remove(name);
            CountResolving(change.Path, wasResolved);
            if (change.Interface == BluezName.Device && (change.Set.ContainsKey("RSSI") || change.Set.ContainsKey("ServiceData") || change.Set.ContainsKey("ManufacturerData")))
                Hear(change.Path);
        }

        Pulse();
    }

    /// <summary>All properties of an interface, as they were asked for.</summary>
    public void Refresh(string path, string @interface, Dictionary<string, VariantValue> properties)
    {
        lock (gate)
        {
            var wasResolved = IsResolved(path);
            Interfaces(path)[@interface] = properties;
            CountResolving(path, wasResolved);
        }

        Pulse();
    }

    public void Finish(LinkException reason)
    {
        lock (gate)
            end ??= reason;
        Pulse();
    }

    public bool Has(string path, string @interface)
    {
        lock (gate)
            return objects.TryGetValue(path, out var interfaces) && interfaces.ContainsKey(@interface);
    }

    /// <summary>Null if the object, the interface or the property is not there.</summary>
    public VariantValue? Get(string path, string @interface, string property)
    {
        lock (gate)
        {
            return objects.TryGetValue(path, out var interfaces) && interfaces.TryGetValue(@interface, out var properties)
                && properties.TryGetValue(property, out var value) ? value : (VariantValue?)null;
        }
    }

    public bool IsTrue(string path, string @interface, string property) =>
        Get(path, @interface, property) is { Type: VariantValueType.Bool } value && value.GetBool();

    public string? Text(string path, string @interface, string property) =>
        Get(path, @interface, property) switch
        {
            { Type: VariantValueType.String } text => text.GetString(),
            { Type: VariantValueType.ObjectPath } place => place.GetObjectPathAsString(),
            _ => null,
        };

    /// <summary>Paths of the objects with this interface below a path, in order; those that came after the latest resolving of services first.</summary>
    public IReadOnlyList<string> Below(string parent, string @interface)
    {
        lock (gate)
        {
            return [.. objects.Where(one => one.Key.StartsWith(parent + "/", StringComparison.Ordinal) && one.Value.ContainsKey(@interface))
                .Select(one => one.Key).OrderByDescending(path => ages.GetValueOrDefault(path)).ThenBy(path => path, StringComparer.Ordinal)];
        }
    }

    /// <summary>How often this device's services came to be resolved: a change means that every subscription is void. Being told so again is no change.</summary>
    public int Resolutions(string path)
    {
        lock (gate)
            return resolutions.GetValueOrDefault(path);
    }

    /// <summary>Timestamp of the last sign of life on the air of a device, or of any device below an adapter; null: none yet.</summary>
    public long? Heard(string path)
    {
        lock (gate)
            return heard.TryGetValue(path, out var at) ? at : null;
    }

    /// <summary>Looks until there is something to see, at every change.</summary>
    /// <exception cref="LinkException">The service has ended.</exception>
    /// <exception cref="TimeoutException">It was not to be seen in time.</exception>
    public async Task<T> WaitAsync<T>(Func<ObjectTree, T?> look, TimeSpan limit, CancellationToken stop)
        where T : class
    {
        var started = time.GetTimestamp();
        while (true)
        {
            Task next;
            lock (gate)
                next = changed.Task;
            if (End is { } reason)
                throw reason;
            if (look(this) is { } seen)
                return seen;
            if (limit == Timeout.InfiniteTimeSpan)
            {
                await next.WaitAsync(stop);
                continue;
            }

            var left = limit - time.GetElapsedTime(started);
            if (left <= TimeSpan.Zero)
                throw new TimeoutException();
            await next.WaitAsync(left, time, stop);
        }
    }

    private static TaskCompletionSource NewPulse() => new(TaskCreationOptions.RunContinuationsAsynchronously);

    private void Put(string path, BusInterfaces interfaces)
    {
        var wasResolved = IsResolved(path);
        var known = Interfaces(path);
        foreach (var (name, properties) in interfaces)
            known[name] = properties;
        CountResolving(path, wasResolved);
        ages[path] = resolutions.GetValueOrDefault(DeviceOf(path));
    }

    private BusInterfaces Interfaces(string path)
    {
        if (!objects.TryGetValue(path, out var interfaces))
            objects[path] = interfaces = [];
        return interfaces;
    }

    private bool IsResolved(string path) => IsTrue(path, BluezName.Device, "ServicesResolved");

    private void CountResolving(string path, bool wasResolved)
    {
        if (!wasResolved && IsResolved(path))
            resolutions[path] = resolutions.GetValueOrDefault(path) + 1;
    }

    private void Hear(string path)
    {
        var now = time.GetTimestamp();
        heard[path] = now;
        if (path.LastIndexOf('/') is > 0 and var cut)
            heard[path[..cut]] = now;
    }

    // /org/bluez/hci0/dev_X/service1/char2 belongs to /org/bluez/hci0/dev_X.
    private static string DeviceOf(string path)
    {
        var start = path.IndexOf("/dev_", StringComparison.Ordinal);
        var end = start < 0 ? -1 : path.IndexOf('/', start + 1);
        return end < 0 ? path : path[..end];
    }

    private void Pulse()
    {
        TaskCompletionSource past;
        lock (gate)
        {
            past = changed;
            changed = NewPulse();
        }

        past.TrySetResult();
    }
}
