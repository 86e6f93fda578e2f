using CaptureAgent.Acceptance.Tests.Agent;
using CaptureAgent.Acceptance.Tests.Bench;
using Xunit;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>A device that cannot be used is a state with a reason, tried again for ever; never the end of <c>run</c>.</summary>
public sealed class DeviceTroubleTests
{
    [Fact(Timeout = 600_000)]
    public async Task An_absent_scale_is_told_once_and_used_when_it_comes()
    {
        using var station = new Station();
        await using var agent = new RunningAgent(station.Folder, []);

        await agent.ReadyAsync();
        var down = await agent.NextAsync("device down", one => one.IsDevice("scale", "down"));
        Assert.Contains("Plug", down.Text("detail"), StringComparison.Ordinal);
        await Keeper.WaitAsync(3);

        await using var keeper = new Keeper(station);
        await agent.NextAsync("device up", one => one.IsDevice("scale", "up"));
        Assert.Single(agent.Log.All, one => one.IsDevice("scale", "down"));
    }

    [Fact(Timeout = 600_000)]
    public async Task A_port_that_another_program_holds_is_told_and_used_when_it_is_free()
    {
        using var station = new Station();
        await using var keeper = new Keeper(station);
        using var held = Libc.Hold(station.Scale.Path);
        await using var agent = new RunningAgent(station.Folder, []);
        await agent.ReadyAsync();

        var down = await agent.NextAsync("device down", one => one.IsDevice("scale", "down"));
        Assert.Contains("busy", down.Text("detail"), StringComparison.Ordinal);
        Assert.Contains("Close that program", down.Text("detail"), StringComparison.Ordinal);
        held.Dispose();
        await agent.NextAsync("device up", one => one.IsDevice("scale", "up"));
    }

    [Fact(Timeout = 600_000)]
    public async Task A_second_agent_finds_the_ports_busy_and_does_not_disturb_the_first()
    {
        using var station = new Station();
        await station.ImportAsync();
        await using var keeper = new Keeper(station);
        await using var first = new RunningAgent(station.Folder, []);
        await keeper.BeginAsync(first);
        await using var second = new RunningAgent(station.Folder, ["--store", "other.db"]);

        Assert.Contains("busy", (await second.NextAsync("device down", one => one.IsDevice("scale", "down"))).Text("detail"), StringComparison.Ordinal);
        Keeper.AssertAccepted(await keeper.WeighAsync(first, Station.Amazon, 186.4), Station.Amazon, 186.4, within: 0.6);
        Assert.Empty(second.Log.Weighings);
    }

    [Fact(Timeout = 600_000)]
    public async Task A_check_names_the_device_that_is_absent_and_ends_with_3()
    {
        using var station = new Station();
        station.Scanner.Plug();

        var check = await station.DoAsync("check", "--wait", "2");

        Assert.Equal(3, check.Code);
        Assert.Contains(station.Scale.Path, check.Output, StringComparison.Ordinal);
        Assert.Contains("Plug", check.Output, StringComparison.Ordinal);
    }

    [Fact(Timeout = 600_000)]
    public async Task A_check_of_devices_that_are_well_ends_with_0()
    {
        using var station = new Station();
        await using var keeper = new Keeper(station);

        var check = await station.DoAsync("check", "--wait", "3");

        Assert.True(check.Code == 0, check.Output + check.Error);
    }
}
