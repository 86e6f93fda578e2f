using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Links.Bluetooth.Bus;
using CaptureAgent.Agent.Links.Bluetooth.Gatt;
using CaptureAgent.Agent.Links.Bluetooth.Pairing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Links.Bluetooth;

public sealed class GattPlanTests
{
    [Theory]
    [InlineData("scale", "frame", null, 60)]
    [InlineData("probe", "health-thermometer", null, 180)]
    [InlineData("scale", "weight-scale", null, 900)]
    [InlineData("scale", "frame", 2.0, 12)]
    public void A_connection_is_suspect_after_several_silences_of_its_device(string role, string dialect, double? silence, double seconds) =>
        Assert.Equal(seconds, Plan(new() { Role = role, Dialect = dialect, SilentAfterSeconds = silence }, new() { Address = "C0:FF:EE:00:00:01" }).SuspectAfter.TotalSeconds);

    [Fact]
    public void The_time_of_the_station_counts_before_any_other() =>
        Assert.Equal(5, Plan(new() { Role = "scale", SilentAfterSeconds = 10 }, new() { Address = "C0:FF:EE:00:00:01", SuspectAfterSeconds = 5 }).SuspectAfter.TotalSeconds);

    [Fact]
    public void A_device_without_an_address_is_refused() =>
        Assert.Contains("connection.address", Assert.Throws<ArgumentException>(() => Plan(new() { Id = "scale" }, new())).Message, StringComparison.Ordinal);

    [Fact]
    public void A_device_is_an_object_named_after_its_address_and_back()
    {
        // BlueZ, doc/org.bluez.Device.rst: /org/bluez/{hci0,hci1,...}/dev_{BDADDR}.
        var path = BluezName.DevicePath("/org/bluez/hci0", "c0:ff:ee:00:00:01");
        Assert.Equal("/org/bluez/hci0/dev_C0_FF_EE_00_00_01", path);
        Assert.Equal("C0:FF:EE:00:00:01", PairingAgent.AddressOf(path));
    }

    private static GattPlan Plan(DeviceOptions device, ConnectionOptions connection) => GattPlan.For(device, connection);
}
