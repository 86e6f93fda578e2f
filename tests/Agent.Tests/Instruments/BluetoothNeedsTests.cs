using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Instruments;
using Xunit;

namespace CaptureAgent.Agent.Tests.Instruments;

public sealed class BluetoothNeedsTests
{
    // Bluetooth Core Specification, Vol 3, Part B, 2.5.1: the base is 00000000-0000-1000-8000-00805F9B34FB.
    [Theory]
    [InlineData("00002a9d-0000-1000-8000-00805f9b34fb", "2a9d")]
    [InlineData("0000FCD2-0000-1000-8000-00805F9B34FB", "fcd2")]
    [InlineData("FFF1", "fff1")]
    [InlineData("6E400003-B5A3-F393-E0A9-E50E24DCCA9E", "6e400003-b5a3-f393-e0a9-e50e24dcca9e")]
    [InlineData("12342a9d-0000-1000-8000-00805f9b34fb", "12342a9d-0000-1000-8000-00805f9b34fb")]
    public void A_uuid_has_a_shortest_form(string uuid, string shortest) => Assert.Equal(shortest, BluetoothNeeds.Short(uuid));

    [Fact]
    public void Each_dialect_says_what_it_needs()
    {
        Assert.Equal(["2a9d"], Of("weight-scale").Subscribe);
        Assert.Equal(["2a1c", "2a1e"], Of("health-thermometer").Subscribe);
        Assert.Equal("fcd2", Of("bthome").ServiceData);
        Assert.Empty(Of("frame").Subscribe);
    }

    [Fact]
    public void A_start_command_goes_to_the_characteristic_that_notifies_unless_it_is_told_another()
    {
        var frame = new FrameOptions { Characteristic = "FFF1", Start = "A501" };
        var needs = Of("frame", frame);
        Assert.Equal(("fff1", "fff1", "A501"), (Assert.Single(needs.Subscribe), needs.Start!.Characteristic, Convert.ToHexString(needs.Start.Bytes.Span)));
        frame.StartCharacteristic = "fff2";
        Assert.Equal("fff2", Of("header-comma", frame).Start!.Characteristic);
    }

    private static BluetoothNeeds Of(string dialect, FrameOptions? frame = null) =>
        BluetoothNeeds.Of(new DeviceOptions { Id = "it", Role = "scale", Dialect = dialect, Frame = frame });
}
