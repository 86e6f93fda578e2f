using System.Threading.Channels;
using CaptureAgent.Simulators.Bluetooth;
using Tmds.DBus.Protocol;

namespace CaptureAgent.Benchmarks.Radio;

/// <summary>The least that a client of BlueZ can do: it is told where and when to connect, and waits for values.</summary>
internal sealed class BareClient : IDisposable
{
    private const string Device = "/org/bluez/hci0/dev_C0_FF_EE_00_00_01", Value = Device + "/service0001/char0002";

    private readonly DBusConnection connection;
    private readonly Channel<bool> values = Channel.CreateUnbounded<bool>();

    private BareClient(DBusConnection connection) => this.connection = connection;

    public ChannelReader<bool> Values => values.Reader;

    public static async Task<BareClient> ConnectAsync(RadioBench bench)
    {
        var client = new BareClient(new DBusConnection(bench.Address));
        await client.connection.ConnectAsync();
        await client.connection.AddMatchAsync(
            new MatchRule { Type = MessageType.Signal, Path = Value, Interface = "org.freedesktop.DBus.Properties", Member = "PropertiesChanged" },
            static (message, _) =>
            {
                var reader = message.GetBodyReader();
                reader.ReadString();
                return reader.ReadDictionaryOfStringToVariantValue().ContainsKey("Value");
            },
            (Notification<bool> told) =>
            {
                if (told is { HasValue: true, Value: true })
                    client.values.Writer.TryWrite(true);
            },
            emitOnCapturedContext: false);
        await client.CallAsync("/org/bluez/hci0", "org.bluez.Adapter1", "StartDiscovery");
        await client.SubscribeAsync();
        await client.CallAsync("/org/bluez/hci0", "org.bluez.Adapter1", "StopDiscovery");
        return client;
    }

    /// <summary>Tries until it works.</summary>
    public async Task SubscribeAsync()
    {
        while (true)
        {
            try
            {
                await CallAsync(Device, "org.bluez.Device1", "Connect");
                break;
            }
            catch (DBusErrorReplyException)
            {
                await Task.Delay(5);
            }
        }

        while (true)
        {
            try
            {
                await CallAsync(Value, "org.bluez.GattCharacteristic1", "StartNotify");
                return;
            }
            catch (DBusErrorReplyException)
            {
                await Task.Delay(5);
            }
        }
    }

    public void Dispose() => connection.Dispose();

    private Task CallAsync(string path, string @interface, string member)
    {
        using var writer = connection.GetMessageWriter();
        writer.WriteMethodCallHeader("org.bluez", path, @interface, member);
        return connection.CallMethodAsync(writer.CreateMessage());
    }
}
