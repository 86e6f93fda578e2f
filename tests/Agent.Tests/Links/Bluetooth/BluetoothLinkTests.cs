using CaptureAgent.Agent.Trace;
using CaptureAgent.Simulators.Bluetooth.StandIn;
using Microsoft.Extensions.Logging;
using Xunit;

namespace CaptureAgent.Agent.Tests.Links.Bluetooth;

public sealed class BluetoothLinkTests
{
    [Fact]
    public async Task A_link_is_up_with_its_first_value_and_the_value_carries_its_uuid()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        var link = scene.Listen(scale);
        await BluetoothScene.Until(() => BluezStandIn.IsNotifying(scale, BluetoothScene.ScaleValue));
        Assert.Equal(0, link.Waiting);

        await scene.SendAsync(scale, 7);
        await link.UpAsync();
        var value = await link.NextAsync();
        Assert.Equal("fff1", value.Source);
        Assert.Equal(7, value.Bytes.Span[0]);
    }

    [Fact]
    public async Task Every_value_comes_once_and_in_order()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        var link = scene.Listen(scale);
        await scene.UpAsync(scale, link, 0);
        for (byte i = 1; i < 200; i++)
            scene.Bluez.Notify(scale, BluetoothScene.ScaleValue, [i]);
        for (byte i = 1; i < 200; i++)
            Assert.Equal(i, (await link.NextAsync()).Bytes.Span[0]);
    }

    [Fact]
    public async Task A_lost_connection_is_told_once_and_made_again()
    {
        await using var scene = await BluetoothScene.StartAsync(BluetoothScene.Impatient);
        var scale = BluetoothScene.Scale();
        var link = scene.Listen(scale);
        await scene.UpAsync(scale, link);
        scene.Bluez.Leave(scale);
        Assert.Contains("was lost", (await link.DownAsync()).Detail, StringComparison.Ordinal);

        // Several tries fail meanwhile.
        var calls = scale.ConnectCalls;
        await BluetoothScene.Until(() => scale.ConnectCalls >= calls + 2);
        Assert.Equal(0, link.Waiting);
        BluezStandIn.Return(scale);
        await scene.UpAsync(scale, link, 2);
        Assert.Single(link.Log.At(LogLevel.Warning));
    }

    [Fact]
    public async Task What_came_before_the_loss_is_handed_on_before_the_loss_is_told()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        var link = scene.Listen(scale);
        await scene.UpAsync(scale, link, 0);
        for (byte i = 1; i <= 50; i++)
            scene.Bluez.Notify(scale, BluetoothScene.ScaleValue, [i]);
        scene.Bluez.Drop(scale);
        for (byte i = 1; i <= 50; i++)
            Assert.Equal(i, (await link.NextAsync()).Bytes.Span[0]);
        await link.DownAsync();
    }

    [Fact]
    public async Task A_device_that_is_not_there_is_not_heard()
    {
        await using var scene = await BluetoothScene.StartAsync(BluetoothScene.Impatient);
        var scale = BluetoothScene.Scale();
        scale.IsInRange = false;
        var link = scene.Listen(scale);
        var down = await link.DownAsync();
        Assert.StartsWith("C0:FF:EE:00:00:01 is not heard.", down.Detail, StringComparison.Ordinal);
        BluezStandIn.Return(scale);
        await scene.UpAsync(scale, link);
    }

    [Fact]
    public async Task Subscriptions_are_made_anew_when_services_are_resolved_again()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        var link = scene.Listen(scale);
        await scene.UpAsync(scale, link);
        scene.Bluez.ResolveAgain(scale);
        await scene.SendAsync(scale, 2);
        Assert.Equal(2, (await link.NextAsync()).Bytes.Span[0]);
    }

    [Fact]
    public async Task A_connection_that_falls_silent_is_made_anew_and_no_word_is_said()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        var link = scene.Listen(scale, device => device.Connection!.SuspectAfterSeconds = 2);
        await scene.UpAsync(scale, link);
        await BluetoothScene.Until(() => scale.ConnectCalls == 2);
        await scene.SendAsync(scale, 2);
        Assert.Equal(2, (await link.NextAsync()).Bytes.Span[0]);
    }

    [Fact]
    public async Task A_device_that_connects_and_never_speaks_is_told_as_such()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        scale.IsMute = true;
        var link = scene.Listen(scale, device => device.Connection!.SuspectAfterSeconds = 1);
        Assert.Contains("connected but has sent nothing for 1 s", (await link.DownAsync()).Detail, StringComparison.Ordinal);
        scale.IsMute = false;
        await scene.UpAsync(scale, link);
    }

    [Fact]
    public async Task Two_devices_share_one_adapter()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var (scale, probe) = (BluetoothScene.Scale(), new SimulatedPeripheral("C0:FF:EE:00:00:02", new SimulatedCharacteristic("1809", "2a1c", ["indicate"], [])));
        var first = scene.Listen(scale);
        var second = scene.Listen(probe, device => (device.Id, device.Role, device.Dialect, device.Frame) = ("probe", "probe", "health-thermometer", null));
        await scene.UpAsync(scale, first);
        await scene.SendAsync(probe, 9, "2a1c");
        await second.UpAsync();
        Assert.Equal("2a1c", (await second.NextAsync()).Source);

        scene.Bluez.Drop(scale);
        await first.DownAsync();
        Assert.Equal(0, second.Waiting);
        await scene.UpAsync(scale, first, 3);
    }

    [Fact]
    public async Task An_adapter_is_chosen_by_its_address()
    {
        await using var scene = await BluetoothScene.StartAsync(BluetoothScene.Patient with { Appearing = TimeSpan.FromSeconds(0.5) });
        var link = scene.Listen(BluetoothScene.Scale(), device => device.Connection!.Adapter = "00:AA:01:00:00:99");
        Assert.StartsWith("There is no Bluetooth adapter 00:AA:01:00:00:99.", (await link.DownAsync()).Detail, StringComparison.Ordinal);

        var scale = BluetoothScene.Scale("C0:FF:EE:00:00:03");
        scene.Bluez.PlugIn("hci1", "00:AA:01:00:00:24");
        var other = scene.Listen(scale, device => device.Connection!.Adapter = "00:aa:01:00:00:23");
        await scene.UpAsync(scale, other);
    }

    [Fact]
    public async Task Discovery_rests_once_everything_is_connected()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        await scene.UpAsync(scale, scene.Listen(scale));
        await BluetoothScene.Until(() => !scene.Bluez.IsDiscovering("hci0"));
    }

    [Fact]
    public async Task The_battery_is_asked_for_once_a_connection_and_not_again_within_the_hour()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = new SimulatedPeripheral(
            "C0:FF:EE:00:00:01",
            new SimulatedCharacteristic(BluetoothScene.ScaleService, BluetoothScene.ScaleValue, ["notify"], []),
            new SimulatedCharacteristic("180f", "2a19", ["read"], [64]));
        var link = scene.Listen(scale);
        await scene.UpAsync(scale, link);
        var battery = await link.NextAsync();
        Assert.Equal(("2a19", (byte)64), (battery.Source, battery.Bytes.Span[0]));

        scene.Bluez.Drop(scale);
        await link.DownAsync();
        await scene.UpAsync(scale, link, 2);
        await scene.SendAsync(scale, 3);
        Assert.Equal(3, (await link.NextAsync()).Bytes.Span[0]);
    }

    [Fact]
    public async Task What_the_dialect_asks_for_is_read_and_written()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = new SimulatedPeripheral(
            "C0:FF:EE:00:00:01",
            new SimulatedCharacteristic(BluetoothScene.ScaleService, BluetoothScene.ScaleValue, ["notify"], []),
            new SimulatedCharacteristic(BluetoothScene.ScaleService, "fff2", ["write"], []));
        var link = scene.Listen(scale, device => (device.Frame!.Start, device.Frame.StartCharacteristic) = ("A501", "fff2"));
        await scene.UpAsync(scale, link);
        var (uuid, bytes) = Assert.Single(scale.Written);
        Assert.Equal("fff2", uuid);
        Assert.Equal([0xA5, 0x01], bytes);

        var weight = new SimulatedPeripheral(
            "C0:FF:EE:00:00:05", new SimulatedCharacteristic("181d", "2a9d", ["indicate"], []), new SimulatedCharacteristic("181d", "2a9e", ["read"], [5, 0, 0, 0]));
        var other = scene.Listen(weight, device => (device.Dialect, device.Frame) = ("weight-scale", null));
        await scene.SendAsync(weight, 1, "2a9d");
        await other.UpAsync();
        string?[] heard = [(await other.NextAsync()).Source, (await other.NextAsync()).Source];
        Assert.Equal(["2a9d", "2a9e"], heard.Order());
    }

    [Fact]
    public async Task A_device_of_another_kind_is_told_by_what_it_has()
    {
        await using var scene = await BluetoothScene.StartAsync(BluetoothScene.Impatient);
        var link = scene.Listen(BluetoothScene.Scale(), device => (device.Dialect, device.Frame) = ("weight-scale", null));
        Assert.Contains("has none of the characteristics 2a9d; it has fff1.", (await link.DownAsync()).Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Advertised_values_are_heard_without_a_connection()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var probe = new SimulatedPeripheral("C0:FF:EE:00:00:04") { ServiceData = { ["fcd2"] = [0x40, 0x02, 0xCA, 0x09] } };
        var link = scene.Listen(probe, device => (device.Role, device.Dialect, device.Frame) = ("probe", "bthome", null));
        await link.UpAsync();
        var value = await link.NextAsync();
        Assert.Equal("fcd2", value.Source);
        Assert.Equal([0x40, 0x02, 0xCA, 0x09], value.Bytes.ToArray());
        // The same again is a value again.
        Assert.Equal([0x40, 0x02, 0xCA, 0x09], (await link.NextAsync()).Bytes.ToArray());
        Assert.Equal(0, probe.ConnectCalls);
    }
}
