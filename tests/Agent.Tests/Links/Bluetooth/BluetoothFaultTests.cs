using CaptureAgent.Agent.Trace;
using CaptureAgent.Simulators.Bluetooth.StandIn;
using Xunit;

namespace CaptureAgent.Agent.Tests.Links.Bluetooth;

/// <summary>The ways in which BlueZ, the air and the computer let a central down.</summary>
public sealed class BluetoothFaultTests
{
    [Theory]
    [InlineData("Failed", "le-connection-abort-by-local")]
    [InlineData("Failed", "le-connection-busy")]
    [InlineData("InProgress", "Operation already in progress")]
    public async Task A_refusal_that_passes_is_not_told(string error, string text)
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        scale.ConnectErrors.Enqueue((error, text));
        scale.ConnectErrors.Enqueue((error, text));
        await scene.UpAsync(scale, scene.Listen(scale));
    }

    [Fact]
    public async Task Refusals_without_end_are_one_outage_with_one_reason()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        for (var i = 0; i < 12; i++)
            scale.ConnectErrors.Enqueue(i % 2 == 0 ? ("Failed", "le-connection-timeout") : ("InProgress", "Operation already in progress"));
        var link = scene.Listen(scale);
        Assert.Contains("does not take the connection", (await link.DownAsync()).Detail, StringComparison.Ordinal);
        await scene.UpAsync(scale, link);
    }

    [Fact]
    public async Task Services_that_never_resolve_are_given_up_and_tried_again()
    {
        await using var scene = await BluetoothScene.StartAsync(BluetoothScene.Impatient);
        var scale = BluetoothScene.Scale();
        scale.NeverResolves = true;
        var link = scene.Listen(scale);
        await link.DownAsync();
        scale.NeverResolves = false;
        await scene.UpAsync(scale, link);
    }

    [Fact]
    public async Task A_connection_that_no_signal_tells_of_is_asked_for()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        scale.IsUnsaid = true;
        var link = scene.Listen(scale);
        for (byte turn = 1; turn <= 2; turn++)
        {
            await scene.UpAsync(scale, link, turn);
            scene.Bluez.Drop(scale);
            await link.DownAsync();
        }
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_device_that_somebody_else_has_connected_unsaid_is_read(bool isRefused)
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        scale.IsInRange = false;
        if (isRefused)
            scale.ConnectErrors.Enqueue(("AlreadyConnected", "Already Connected"));
        var link = scene.Listen(scale);
        await BluetoothScene.Until(() => scene.Bluez.IsDiscovering("hci0"));
        scene.Bluez.ConnectUnsaid(scale);
        await scene.UpAsync(scale, link);
    }

    [Fact]
    public async Task Characteristics_that_come_after_their_services_are_waited_for()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        scale.IsLate = true;
        await scene.UpAsync(scale, scene.Listen(scale));
    }

    [Fact]
    public async Task Objects_left_from_an_older_connection_neither_mute_nor_double_a_device()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        scale.LeavesGhosts = true;
        var link = scene.Listen(scale);
        for (byte turn = 1; turn <= 3; turn++)
        {
            await scene.UpAsync(scale, link, turn);
            await scene.SendAsync(scale, 100);
            Assert.Equal(100, (await link.NextAsync()).Bytes.Span[0]);
            scene.Bluez.Drop(scale);
            await link.DownAsync();
        }
    }

    [Fact]
    public async Task A_device_that_drops_off_the_bus_is_found_again()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        var link = scene.Listen(scale);
        await scene.UpAsync(scale, link);
        scene.Bluez.Leave(scale);
        scene.Bluez.Forget(scale);
        await link.DownAsync();
        BluezStandIn.Return(scale);
        await scene.UpAsync(scale, link, 2);
    }

    [Fact]
    public async Task A_service_that_is_killed_and_started_again_is_one_outage()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        var link = scene.Listen(scale);
        await scene.UpAsync(scale, link);
        scene.Bluez.Dispose();
        Assert.StartsWith("The Bluetooth service of this computer does not run.", (await link.DownAsync()).Detail, StringComparison.Ordinal);

        scene.Bluez = await BluezStandIn.StartAsync(scene.Bus.Address);
        scale.ForgetConnection();
        scene.Bluez.Add(scale);
        await scene.UpAsync(scale, link, 2);
    }

    [Fact]
    public async Task A_bus_that_is_killed_and_started_again_is_one_outage()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        var link = scene.Listen(scale);
        await scene.UpAsync(scale, link);
        scene.Bus.Kill();
        Assert.StartsWith("The Bluetooth service of this computer does not run.", (await link.DownAsync()).Detail, StringComparison.Ordinal);

        scene.Bluez.Dispose();
        scene.Bus.Start();
        scene.Bluez = await BluezStandIn.StartAsync(scene.Bus.Address);
        scale.ForgetConnection();
        scene.Bluez.Add(scale);
        await scene.UpAsync(scale, link, 2);
    }

    [Fact]
    public async Task An_adapter_that_is_unplugged_and_plugged_in_again_is_one_outage()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        var link = scene.Listen(scale);
        await scene.UpAsync(scale, link);
        scene.Bluez.Unplug("hci0");
        Assert.StartsWith("There is no Bluetooth adapter.", (await link.DownAsync()).Detail, StringComparison.Ordinal);
        scene.Bluez.PlugIn("hci0", "00:AA:01:00:00:23", isPowered: false);
        await scene.UpAsync(scale, link, 2);
    }

    [Fact]
    public async Task The_airplane_mode_is_told_and_survived()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        var link = scene.Listen(scale);
        await scene.UpAsync(scale, link);
        scene.Bluez.IsBlocked = true;
        scene.Bluez.SwitchOff("hci0");
        Assert.StartsWith("The Bluetooth adapter 00:AA:01:00:00:23 is switched off.", (await link.DownAsync()).Detail, StringComparison.Ordinal);
        scene.Bluez.IsBlocked = false;
        await scene.UpAsync(scale, link, 2);
    }

    [Fact]
    public async Task Discovery_that_hears_nobody_is_restarted_then_the_adapter_is_power_cycled_then_it_is_said()
    {
        await using var scene = await BluetoothScene.StartAsync(BluetoothScene.Impatient with { Deaf = TimeSpan.FromSeconds(0.6) });
        scene.Bluez.IsDeaf = true;
        var scale = BluetoothScene.Scale();
        var link = scene.Listen(scale);
        Assert.Contains("is not heard", (await link.DownAsync()).Detail, StringComparison.Ordinal);
        Assert.Contains("has heard nothing from any device", (await link.DownAsync()).Detail, StringComparison.Ordinal);
        Assert.Contains("PowerOff", scene.Bluez.AdapterCalls);
        Assert.Contains("StopDiscovery", scene.Bluez.AdapterCalls.TakeWhile(static call => call != "PowerOff"));

        scene.Bluez.IsDeaf = false;
        await scene.SendAsync(scale, 1);
    }

    [Theory]
    [InlineData("StopDiscovery")]
    [InlineData("PowerOff")]
    public async Task What_heals_a_deaf_adapter_heals_the_link(string remedy)
    {
        await using var scene = await BluetoothScene.StartAsync(BluetoothScene.Patient with { Deaf = TimeSpan.FromSeconds(0.6) });
        (scene.Bluez.IsDeaf, scene.Bluez.HealedBy) = (true, remedy);
        var scale = BluetoothScene.Scale();
        await scene.UpAsync(scale, scene.Listen(scale));
    }

    [Fact]
    public async Task A_device_that_asks_to_be_paired_shows_its_number_and_a_person_confirms_it()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        scale.WantsPairing = true;
        var link = scene.Listen(scale);
        var question = await link.NextAsync();
        Assert.Equal(PairingQuestion.Source, question.Source);
        Assert.Equal(PairingQuestion.Confirm("042017"), PairingQuestion.Read(question.Bytes.Span));
        scene.Central.Desk.Confirm();
        await scene.UpAsync(scale, link);
    }

    [Fact]
    public async Task A_pairing_that_nobody_confirms_is_told()
    {
        await using var scene = await BluetoothScene.StartAsync(BluetoothScene.Patient with { Confirming = TimeSpan.FromSeconds(0.3) });
        var scale = BluetoothScene.Scale();
        scale.WantsPairing = true;
        var link = scene.Listen(scale);
        await link.NextAsync();
        Assert.Contains("asks to be paired, and that did not succeed", (await link.DownAsync()).Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Stopping_gives_the_device_back()
    {
        await using var scene = await BluetoothScene.StartAsync();
        var scale = BluetoothScene.Scale();
        var link = scene.Listen(scale);
        await scene.UpAsync(scale, link);
        await link.StopAsync();
        Assert.False(BluezStandIn.IsNotifying(scale, BluetoothScene.ScaleValue));
    }
}
