using System.Diagnostics;
using CaptureAgent.Simulators.Bluetooth.Bus;
using Tmds.DBus.Protocol;

namespace CaptureAgent.Simulators.Bluetooth.Peripheral;

/// <summary>A device that the real bluetoothd plays on one of its adapters: a GATT server with one notifying characteristic a service, and an advertisement.</summary>
/// <remarks>When bluetoothd dies everything it knew of the device is gone: <see cref="RunAsync"/> registers it again.</remarks>
public sealed class GattPeripheral(string bus, string adapter, string name, params SimulatedService[] services)
{
    private const string Service = "org.bluez", Characteristic = "org.bluez.GattCharacteristic1", Application = "/device", Advert = "/advertisement";

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20), Between = TimeSpan.FromSeconds(1), Unsubscribed = TimeSpan.FromSeconds(12);

    private volatile ExportedObjects? objects;
    private volatile string? linked;
    private long linkedSince;

    /// <summary>Values that somebody was subscribed to when they were sent.</summary>
    public int Sent { get; private set; }

    /// <summary>The service knows it.</summary>
    public bool IsOnTheAir => objects is not null;

    /// <summary>Sends a value to who is subscribed.</summary>
    public void Notify(string uuid, byte[] value)
    {
        if (objects is not { } exported || PathOf(uuid) is not { } path || exported.Get(path, Characteristic, "Notifying")?.GetBool() is not true)
            return;
        exported.Set(path, Characteristic, ("Value", VariantValue.Array(value)));
        Sent++;
    }

    /// <summary>Is on the air until stopped.</summary>
    public async Task RunAsync(CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            using var connection = new DBusConnection(bus);
            try
            {
                await connection.ConnectAsync();
                await PlayAsync(connection, stop);
            }
            catch (Exception gone) when (gone is DBusExceptionBase or TimeoutException)
            {
                Console.WriteLine($"{name}: {gone.Message}; again");
            }

            objects = null;
            await Task.Delay(Between, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    private static string PathOf(int index) => $"{Application}/service{index}/value";

    private string? PathOf(string uuid) => Array.FindIndex(services, one => one.Characteristic == uuid) is >= 0 and var index ? PathOf(index) : null;

    private async Task PlayAsync(DBusConnection connection, CancellationToken stop)
    {
        var adapterPath = $"/org/bluez/{adapter}";
        linked = null;
        await CallAsync(connection, adapterPath, "org.freedesktop.DBus.Properties", "Set", "ssv", static (ref MessageWriter writer) =>
        {
            writer.WriteString("org.bluez.Adapter1");
            writer.WriteString("Powered");
            writer.WriteVariantBool(true);
        });
        var exported = Export(connection);
        var over = WatchAsync(connection, adapterPath);
        await CallAsync(connection, adapterPath, "org.bluez.GattManager1", "RegisterApplication", "oa{sv}", WithPath(Application));
        objects = exported;
        Console.WriteLine($"{name}: on the air at {adapter}");
        var gone = await over;
        // An emulated radio tells of an advertiser only at the moment at which scanning or advertising begins (a real one repeats it): so it begins again and again.
        for (var advertised = false; !stop.IsCancellationRequested; await Task.Delay(Between, stop))
        {
            if (gone.IsCompleted)
                throw new TimeoutException("bluetoothd is gone");
            if (linked is { } central)
            {
                await DropIdlerAsync(connection, central);
                continue;
            }

            if (advertised)
                await CallAsync(connection, adapterPath, "org.bluez.LEAdvertisingManager1", "UnregisterAdvertisement", "o", static (ref MessageWriter writer) => writer.WriteObjectPath(Advert));
            advertised = linked is null;
            if (advertised)
                await CallAsync(connection, adapterPath, "org.bluez.LEAdvertisingManager1", "RegisterAdvertisement", "oa{sv}", WithPath(Advert));
        }
    }

    // As real devices do: who connects and does not subscribe is sent away. A half-made connection would else keep it off the air for ever.
    private async Task DropIdlerAsync(DBusConnection connection, string central)
    {
        if (Stopwatch.GetElapsedTime(linkedSince) < Unsubscribed || services.Any(one => objects?.Get(PathOf(one.Characteristic)!, Characteristic, "Notifying")?.GetBool() is true))
            return;
        Console.WriteLine($"{name}: sends away {central}");
        linked = null;
        await CallAsync(connection, central, "org.bluez.Device1", "Disconnect", null, static (ref MessageWriter _) => { });
    }

    private ExportedObjects Export(DBusConnection connection)
    {
        var exported = new ExportedObjects(connection, Application);
        for (var i = 0; i < services.Length; i++)
        {
            var path = PathOf(i);
            exported.Add(path[..path.LastIndexOf('/')], new() { ["org.bluez.GattService1"] = new() { ["UUID"] = Uuid.Full(services[i].Uuid), ["Primary"] = true } });
            exported.Add(path, new()
            {
                [Characteristic] = new()
                {
                    ["UUID"] = Uuid.Full(services[i].Characteristic),
                    ["Service"] = new ObjectPath(path[..path.LastIndexOf('/')]),
                    ["Flags"] = VariantValue.Array(new[] { services[i].Flag }),
                    ["Notifying"] = false,
                },
            });
        }

        var advert = new ExportedObjects(connection, Advert);
        advert.Add(Advert, new()
        {
            ["org.bluez.LEAdvertisement1"] = new()
            {
                ["Type"] = "peripheral",
                ["LocalName"] = name,
                ["ServiceUUIDs"] = VariantValue.Array(services.Select(one => Uuid.Full(one.Uuid)).ToArray()),
            },
        });
        connection.AddMethodHandlers([new Handler(Application, exported), new Handler(Advert, advert)]);
        return exported;
    }

    // The outer task ends once it is watched, the inner one when bluetoothd is gone.
    private async Task<Task> WatchAsync(DBusConnection connection, string adapterPath)
    {
        var gone = new TaskCompletionSource();
        await connection.AddMatchAsync(
            new MatchRule { Type = MessageType.Signal, Interface = "org.freedesktop.DBus", Member = "NameOwnerChanged", Arg0 = Service },
            static (_, _) => true,
            (Notification<bool> told) => gone.TrySetResult(),
            emitOnCapturedContext: false);
        await connection.AddMatchAsync(
            new MatchRule { Type = MessageType.Signal, Sender = Service, PathNamespace = adapterPath, Interface = "org.freedesktop.DBus.Properties", Member = "PropertiesChanged", Arg0 = "org.bluez.Device1" },
            static (message, _) =>
            {
                var reader = message.GetBodyReader();
                reader.ReadString();
                return (message.PathAsString!, reader.ReadDictionaryOfStringToVariantValue().TryGetValue("Connected", out var on) ? on.GetBool() : (bool?)null);
            },
            (Notification<(string Path, bool? On)> told) =>
            {
                if (told is { HasValue: true, Value: (var path, { } on) })
                {
                    linkedSince = Stopwatch.GetTimestamp();
                    linked = on ? path : null;
                }
            },
            emitOnCapturedContext: false);
        return gone.Task;
    }

    private static Arguments WithPath(string path) => (ref MessageWriter writer) =>
    {
        writer.WriteObjectPath(path);
        writer.WriteDictionary(Array.Empty<KeyValuePair<string, VariantValue>>());
    };

    private static Task CallAsync(DBusConnection connection, string path, string @interface, string member, string? signature, Arguments arguments)
    {
        var writer = connection.GetMessageWriter();
        try
        {
            writer.WriteMethodCallHeader(Service, path, @interface, member, signature);
            arguments(ref writer);
            return connection.CallMethodAsync(writer.CreateMessage()).WaitAsync(Patience);
        }
        finally
        {
            writer.Dispose();
        }
    }

    private delegate void Arguments(ref MessageWriter writer);

    private sealed class Handler(string path, ExportedObjects objects) : IPathMethodHandler
    {
        public string Path => path;

        public bool HandlesChildPaths => true;

        public ValueTask HandleMethodAsync(MethodContext context)
        {
            if (objects.TryAnswer(context))
                return ValueTask.CompletedTask;
            switch (context.Request.MemberAsString)
            {
                case "StartNotify" or "StopNotify":
                    objects.Set(context.Request.PathAsString!, Characteristic, ("Notifying", context.Request.MemberAsString == "StartNotify"));
                    ExportedObjects.Done(context);
                    break;
                case "Confirm" or "Release":
                    ExportedObjects.Done(context);
                    break;
                default:
                    context.ReplyUnknownMethodError();
                    break;
            }

            return ValueTask.CompletedTask;
        }
    }
}

/// <summary>A service with one characteristic.</summary>
/// <param name="Flag">notify or indicate.</param>
public sealed record SimulatedService(string Uuid, string Characteristic, string Flag);
