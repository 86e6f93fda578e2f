using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Links.Bluetooth;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Simulators.Bluetooth.Bus;
using CaptureAgent.Simulators.Bluetooth.StandIn;
using Xunit;

namespace CaptureAgent.Agent.Tests.Links.Bluetooth;

/// <summary>A private bus with a stand-in for BlueZ on it, and a central that uses it.</summary>
internal sealed class BluetoothScene : IAsyncDisposable
{
    public const string ScaleService = "fff0", ScaleValue = "fff1";

    // So that a fault shows as a failed test, never as a test run that hangs.
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(30);

    private readonly List<LinkUnderTest> links = [];
    private readonly Central central;

    private BluetoothScene(BluetoothTimings timings)
    {
        Bus = new PrivateBus();
        central = new Central(Bus.Address, TimeProvider.System, timings);
    }

    /// <summary>For what comes, however busy the machine is: nothing is given up that is only late.</summary>
    public static BluetoothTimings Patient { get; } = new()
    {
        Seeing = TimeSpan.FromMinutes(1),
        SeeingKnown = TimeSpan.FromMinutes(1),
        Connecting = TimeSpan.FromMinutes(1),
        Resolving = TimeSpan.FromMinutes(1),
        Appearing = TimeSpan.FromMinutes(1),
        Breath = TimeSpan.FromMilliseconds(10),
        Reason = TimeSpan.FromSeconds(1),
    };

    /// <summary>For what does not come.</summary>
    public static BluetoothTimings Impatient { get; } = Patient with
    {
        Seeing = TimeSpan.FromSeconds(0.5),
        SeeingKnown = TimeSpan.FromSeconds(0.3),
        Connecting = TimeSpan.FromSeconds(0.5),
        Resolving = TimeSpan.FromSeconds(0.5),
        Appearing = TimeSpan.FromSeconds(0.5),
    };

    public PrivateBus Bus { get; }

    public Central Central => central;

    public BluezStandIn Bluez { get; set; } = null!;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public static async Task<BluetoothScene> StartAsync(BluetoothTimings? timings = null)
    {
        Assert.SkipUnless(PrivateBus.IsThere, $"dbus-daemon is not there: {PrivateBus.InstallLine}");
        var scene = new BluetoothScene(timings ?? Patient);
        scene.Bluez = await BluezStandIn.StartAsync(scene.Bus.Address);
        return scene;
    }

    public static SimulatedPeripheral Scale(string address = "C0:FF:EE:00:00:01") =>
        new(address, new SimulatedCharacteristic(ScaleService, ScaleValue, ["notify"], []));

    public LinkUnderTest Listen(SimulatedPeripheral peripheral, Action<DeviceOptions>? change = null)
    {
        Bluez.Add(peripheral);
        var device = new DeviceOptions
        {
            Id = "scale",
            Role = "scale",
            Dialect = "header-comma",
            Frame = new() { Service = ScaleService, Characteristic = ScaleValue },
            Connection = new() { Kind = "bluetooth", Address = peripheral.Address },
        };
        change?.Invoke(device);
        var link = new LinkUnderTest(log => new BluetoothLink(central, device, device.Connection!, log, LinkTimings.Default), Token);
        links.Add(link);
        return link;
    }

    /// <summary>Sends once somebody listens.</summary>
    public async Task SendAsync(SimulatedPeripheral peripheral, byte value, string uuid = ScaleValue) =>
        await Until(() => Bluez.Notify(peripheral, uuid, [value]));

    public async Task UpAsync(SimulatedPeripheral peripheral, LinkUnderTest link, byte value = 1)
    {
        // Sent again if nothing came of it: the connection that took it may have been given up at that moment.
        do
            await SendAsync(peripheral, value);
        while (!await ComesAsync(link));
        await link.UpAsync();
        Assert.Equal(value, (await link.NextAsync()).Bytes.Span[0]);
    }

    private static async Task<bool> ComesAsync(LinkUnderTest link)
    {
        for (var turn = 0; turn < 600 && link.Waiting == 0; turn++)
            await Task.Delay(5, Token);
        return link.Waiting > 0;
    }

    public static async Task Until(Func<bool> condition)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(Token);
        limit.CancelAfter(Limit);
        while (!condition())
            await Task.Delay(5, limit.Token);
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var link in links)
            await link.DisposeAsync();
        central.Dispose();
        Bluez?.Dispose();
        Bus.Dispose();
    }
}
