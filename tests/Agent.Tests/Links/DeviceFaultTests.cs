using System.Runtime.InteropServices;
using System.Runtime.Versioning;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Links.Devices;
using CaptureAgent.Agent.Links.Serial;
using CaptureAgent.Agent.Tests.Support;
using Xunit;

namespace CaptureAgent.Agent.Tests.Links;

[SupportedOSPlatform("linux")]
public sealed partial class DeviceFaultTests
{
    [Fact]
    public void A_port_that_is_closed_to_us_names_the_group_to_join()
    {
        var (name, id) = File.ReadLines("/etc/group").Select(line => line.Split(':')).Select(fields => (fields[0], uint.Parse(fields[2], null)))
            .First(group => group.Item2 != 0);
        var fault = DeviceFault.Opening(Libc.Access, "/dev/ttyUSB0", new DeviceStatus(0x2000 | 0b110_110_000, id), "keeper");
        Assert.Equal("Permission denied: /dev/ttyUSB0.", fault.Message);
        Assert.Contains($"Add the user keeper to the group {name} ", fault.Detail, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0b110_110_000, 0u)]
    [InlineData(0b110_000_000, 20u)]
    public void Joining_a_group_is_no_advice_where_it_would_not_help(int permissions, uint group)
    {
        var fault = DeviceFault.Opening(Libc.Access, "/dev/ttyUSB0", new DeviceStatus(0x2000 | permissions, group), "keeper");
        Assert.DoesNotContain("usermod", fault.Detail, StringComparison.Ordinal);
        Assert.Contains("udev", fault.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_port_that_the_system_closes_to_us_is_permission_denied()
    {
        using var terminal = new PseudoTerminal();
        File.SetUnixFileMode(terminal.Path, UnixFileMode.None);
        // Root may open anything: this one thread asks as nobody (setfsuid(2) is per thread), and ends with it.
        var opening = new TaskCompletionSource<Exception?>();
        new Thread(() =>
        {
            _ = SetFileSystemUser(65534);
            opening.SetResult(Record.Exception(() => CharacterDevice.Open(terminal.Path)));
        }).Start();
        var fault = Assert.IsType<LinkException>(await opening.Task.WaitAsync(TestContext.Current.CancellationToken));
        Assert.Contains("Permission denied", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void An_absent_port_says_how_to_see_which_are_there()
    {
        var fault = Assert.Throws<LinkException>(() => CharacterDevice.Open("/dev/serial/by-id/none"));
        Assert.StartsWith("There is no /dev/serial/by-id/none.", fault.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public void A_plain_file_is_no_device()
    {
        using var path = new DevicePath();
        File.WriteAllText(path.Path, "ST,GS,+  186.4  g\r\n");
        var fault = Assert.Throws<LinkException>(() => CharacterDevice.Open(path.Path));
        Assert.Contains("is no character device", fault.Message, StringComparison.Ordinal);
        Assert.Equal("ST,GS,+  186.4  g\r\n", File.ReadAllText(path.Path));
    }

    [Fact]
    public void A_directory_is_no_device() =>
        Assert.Contains("is no character device", Assert.Throws<LinkException>(() => CharacterDevice.Open("/dev")).Message, StringComparison.Ordinal);

    [Fact]
    public async Task A_device_that_is_no_port_is_refused_and_closed()
    {
        var plan = SerialPlan.For(new() { Id = "scale", Role = "scale" }, new() { Path = "/dev/null" });
        var sessions = new SerialSessions(plan, new SerialPortControl(), TimeProvider.System);
        for (var turn = 0; turn < 2; turn++) // a descriptor left open would make the second try busy
            Assert.Contains("is no serial port", (await Assert.ThrowsAsync<LinkException>(() => sessions.OpenAsync(false, TestContext.Current.CancellationToken))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_port_that_takes_no_more_commands_is_lost()
    {
        using var terminal = new PseudoTerminal();
        using var port = CharacterDevice.Open(terminal.Path);
        new SerialPortControl().SetUp(port, new(9600, 8, SerialParity.None, 1, SerialFlow.None));
        var fault = Assert.Throws<LinkException>(() =>
        {
            for (var turn = 0; turn < 1_000_000; turn++)
                port.Write("SI\r\n"u8);
        });
        Assert.Contains("takes no commands", fault.Message, StringComparison.Ordinal);
    }

    [LibraryImport("libc", EntryPoint = "setfsuid")]
    private static partial int SetFileSystemUser(uint user);
}
