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

    /// <summary>Patience that suits a test: what is waited for here does not come.</summary>
    public static BluetoothTimings Impatient { get; } = new()
    {
        Seeing = TimeSpan.FromSeconds(0.5),
        SeeingKnown = TimeSpan.FromSeconds(0.3),
        Connecting = TimeSpan.FromSeconds(0.5),
        Resolving = TimeSpan.FromSeconds(0.3),
        Appearing = TimeSpan.FromSeconds(0.5),
        Breath = TimeSpan.FromMilliseconds(10),
        Reason = TimeSpan.FromMilliseconds(100),
    };

    public PrivateBus Bus { get; }

    public Central Central => central;

    public BluezStandIn Bluez { get; set; } = null!;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public static async Task<BluetoothScene> StartAsync(BluetoothTimings? timings = null)
    {
        Assert.SkipUnless(PrivateBus.IsThere, $"dbus-daemon is not there: {PrivateBus.InstallLine}");
        var scene = new BluetoothScene(timings ?? Impatient);
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
            Id = "scale", Role = "scale", Dialect = "header-comma", Frame = new() { Service = ScaleService, Characteristic = ScaleValue },
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
        await SendAsync(peripheral, value);
        await link.UpAsync();
        Assert.Equal(value, (await link.NextAsync()).Bytes.Span[0]);
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
