using Tmds.DBus.Protocol;

namespace CaptureAgent.Agent.Links.Bluetooth.Bus;

/// <summary>One life of the Bluetooth service as seen over the bus. When bluetoothd or the bus goes, it ends for good and a new one is opened.</summary>
internal sealed class Bluez : IDisposable
{
    private readonly DBusConnection connection;
    private readonly TimeProvider time;
    private readonly BluetoothTimings timings;
    private readonly Dictionary<string, Action<DateTimeOffset, byte[]>> values = new(StringComparer.Ordinal);
    private readonly Lock gate = new();

    private Bluez(DBusConnection connection, TimeProvider time, BluetoothTimings timings)
    {
        this.connection = connection;
        this.time = time;
        this.timings = timings;
        Tree = new ObjectTree(time);
    }

    public ObjectTree Tree { get; }

    /// <param name="address">Of the bus.</param>
    /// <exception cref="LinkException">No bus, or no Bluetooth service on it.</exception>
    public static async Task<Bluez> OpenAsync(string address, TimeProvider time, BluetoothTimings timings, CancellationToken stop)
    {
        var connection = new DBusConnection(address);
        try
        {
            await connection.ConnectAsync().AsTask().WaitAsync(timings.Calling, time, stop);
            var bluez = new Bluez(connection, time, timings);
            await bluez.StartAsync(stop);
            return bluez;
        }
        catch (Exception failure) when (failure is DBusExceptionBase or TimeoutException or IOException or System.Net.Sockets.SocketException)
        {
            connection.Dispose();
            throw BluetoothFault.NoService();
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Calls a method that answers nothing.</summary>
    /// <exception cref="DBusErrorReplyException">BlueZ refused.</exception>
    /// <exception cref="TimeoutException">No answer in time.</exception>
    /// <exception cref="LinkException">The service has ended.</exception>
    public Task CallAsync(string path, string @interface, string member, string? signature, BusArguments? arguments, TimeSpan limit, CancellationToken stop) =>
        GuardAsync(connection.CallMethodAsync(Message(BluezName.Service, path, @interface, member, signature, arguments), static (_, _) => true), limit, stop);

    /// <summary>Calls a method and reads its answer.</summary>
    public Task<T> CallAsync<T>(string path, string @interface, string member, string? signature, BusArguments? arguments, Func<Message, T> read, TimeSpan limit, CancellationToken stop) =>
        GuardAsync(connection.CallMethodAsync(Message(BluezName.Service, path, @interface, member, signature, arguments), static (message, state) => ((Func<Message, T>)state!)(message), read), limit, stop);

    /// <summary>Asks for an object's properties anew: what no signal told of is seen so.</summary>
    /// <remarks>The answer is put into the tree on the reading loop, so that it overwrites no signal that came after it.</remarks>
    public Task RefreshAsync(string path, string @interface, TimeSpan limit, CancellationToken stop) => CallAsync(
        path,
        BluezName.Properties,
        "GetAll",
        "s",
        (ref writer) => writer.WriteString(@interface),
        message =>
        {
            Tree.Refresh(path, @interface, BusMessages.ReadProperties(message));
            return true;
        },
        limit,
        stop);

    /// <summary>Hands on every value of a characteristic with the moment at which it came, on the bus's reading loop: be quick. One listener a path.</summary>
    public void Listen(string path, Action<DateTimeOffset, byte[]> take)
    {
        lock (gate)
            values[path] = take;
    }

    public void Unlisten(string path)
    {
        lock (gate)
            values.Remove(path);
    }

    /// <summary>Serves calls to an object of ours.</summary>
    public void Export(IPathMethodHandler handler) => connection.AddMethodHandler(handler);

    public void Dispose()
    {
        Tree.Finish(BluetoothFault.NoService());
        connection.Dispose();
    }

    private async Task StartAsync(CancellationToken stop)
    {
        // Watched before it is asked: what changes in between is not missed.
        await Watch(new MatchRule { Type = MessageType.Signal, Sender = BluezName.Daemon, Interface = BluezName.Daemon, Member = "NameOwnerChanged", Arg0 = BluezName.Service }, static message =>
        {
            var reader = message.GetBodyReader();
            reader.ReadString();
            return reader.ReadString();
        }, (_, before) =>
        {
            if (before.Length > 0)
                Tree.Finish(BluetoothFault.NoService());
        });
        await Watch(Signal(BluezName.ObjectManager, "InterfacesAdded"), BusMessages.ReadAdded, (_, added) => OnAdded(added.Path, added.Interfaces));
        await Watch(Signal(BluezName.ObjectManager, "InterfacesRemoved"), BusMessages.ReadRemoved, (_, removed) => Tree.Remove(removed.Path, removed.Interfaces));
        await Watch(Signal(BluezName.Properties, "PropertiesChanged", BluezName.Root), BusMessages.ReadChange, OnChange);
        _ = WatchConnectionAsync();

        // Loaded on the reading loop, so that no later signal can come in between.
        await CallAsync("/", BluezName.ObjectManager, "GetManagedObjects", null, null, message =>
        {
            Tree.Load(BusMessages.ReadObjects(message));
            return true;
        }, timings.Calling, stop);
    }

    private void OnAdded(string path, BusInterfaces interfaces)
    {
        Tree.Add(path, interfaces);
        if (interfaces.TryGetValue(BluezName.Device, out var device) && device.ContainsKey("ServiceData"))
            Tell(path, device, time.GetUtcNow());
    }

    private void OnChange(DateTimeOffset at, PropertyChange change)
    {
        // Values are many and change nothing of what the tree is asked for.
        if (change.Interface == BluezName.Characteristic && change.Set.TryGetValue("Value", out var value))
        {
            Take(change.Path, at, value);
            if (change.Set.Count == 1)
                return;
        }

        Tree.Change(change);
        if (change.Interface == BluezName.Device)
            Tell(change.Path, change.Set, at);
    }

    // Service data is listened for under the device's path and the data's UUID.
    private void Tell(string path, Dictionary<string, VariantValue> device, DateTimeOffset at)
    {
        if (!device.TryGetValue("ServiceData", out var data))
            return;
        for (var i = 0; i < data.Count; i++)
        {
            var (uuid, bytes) = data.GetDictionaryEntry(i);
            Take($"{path}#{uuid.GetString()}", at, bytes.Type == VariantValueType.Variant ? bytes.GetVariantValue() : bytes);
        }
    }

    private void Take(string key, DateTimeOffset at, VariantValue value)
    {
        Action<DateTimeOffset, byte[]>? take;
        lock (gate)
            values.TryGetValue(key, out take);
        take?.Invoke(at, value.GetArray<byte>());
    }

    private static MatchRule Signal(string @interface, string member, string? under = null) =>
        new() { Type = MessageType.Signal, Sender = BluezName.Service, Interface = @interface, Member = member, PathNamespace = under };

    private async Task Watch<T>(MatchRule rule, Func<Message, T> read, Action<DateTimeOffset, T> take) =>
        await connection.AddMatchAsync(
            rule,
            static (message, state) => ((Func<Message, T>)state!)(message),
            (Notification<T> told) =>
            {
                if (told.HasValue)
                    take(time.GetUtcNow(), told.Value);
            },
            emitOnCapturedContext: false,
            ObserverFlags.None,
            read);

    private async Task WatchConnectionAsync()
    {
        await ((Task)connection.DisconnectedAsync()).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        Tree.Finish(BluetoothFault.NoService());
    }

    private async Task<T> GuardAsync<T>(Task<T> answer, TimeSpan limit, CancellationToken stop)
    {
        try
        {
            return await answer.WaitAsync(limit, time, stop);
        }
        catch (DBusConnectionException)
        {
            throw BluetoothFault.NoService();
        }
        catch (DBusErrorReplyException refusal) when (BluezError.IsServiceGone(refusal.ErrorName))
        {
            throw BluetoothFault.NoService();
        }
    }

    private MessageBuffer Message(string destination, string path, string @interface, string member, string? signature, BusArguments? arguments)
    {
        var writer = connection.GetMessageWriter();
        try
        {
            writer.WriteMethodCallHeader(destination, path, @interface, member, signature);
            arguments?.Invoke(ref writer);
            return writer.CreateMessage();
        }
        finally
        {
            writer.Dispose();
        }
    }
}
