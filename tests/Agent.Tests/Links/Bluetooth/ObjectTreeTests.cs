using CaptureAgent.Agent.Links.Bluetooth.Bus;
using Tmds.DBus.Protocol;
using Xunit;

namespace CaptureAgent.Agent.Tests.Links.Bluetooth;

public sealed class ObjectTreeTests
{
    private const string Adapter = "/org/bluez/hci0", Device = Adapter + "/dev_C0_FF_EE_00_00_01", Value = Device + "/service0001/char0002";

    private readonly ObjectTree tree = new(TimeProvider.System);

    [Fact]
    public void Services_that_are_said_to_be_resolved_twice_were_resolved_once()
    {
        Say(resolved: true);
        Say(resolved: true);
        Assert.Equal(1, tree.Resolutions(Device));
    }

    [Fact]
    public void Services_that_were_not_resolved_for_a_while_count_again()
    {
        Say(resolved: true);
        Say(resolved: false);
        Say(resolved: true);
        Assert.Equal(2, tree.Resolutions(Device));
    }

    [Fact]
    public void A_signal_that_comes_after_the_answer_of_the_same_news_counts_nothing()
    {
        Say(resolved: false);
        tree.Refresh(Device, BluezName.Device, Properties(resolved: true));
        Say(resolved: true);
        Assert.Equal(1, tree.Resolutions(Device));
    }

    [Fact]
    public void Services_that_are_found_resolved_count_however_it_is_told()
    {
        tree.Load(new(StringComparer.Ordinal) { [Device] = Interfaces(BluezName.Device, Properties(resolved: true)) });
        Assert.Equal(1, tree.Resolutions(Device));
        tree.Add(Device, Interfaces(BluezName.Device, Properties(resolved: false)));
        tree.Add(Device, Interfaces(BluezName.Device, Properties(resolved: true)));
        Assert.Equal(2, tree.Resolutions(Device));
    }

    [Fact]
    public void A_device_that_left_the_bus_begins_anew()
    {
        Say(resolved: true);
        tree.Remove(Device, [BluezName.Device]);
        Assert.Equal(0, tree.Resolutions(Device));
        Assert.False(tree.Has(Device, BluezName.Device));
    }

    [Fact]
    public void An_answer_takes_the_place_of_all_that_was_known_of_its_interface()
    {
        tree.Add(Device, Interfaces(BluezName.Device, new(StringComparer.Ordinal) { ["RSSI"] = (short)-60, ["Connected"] = false }));
        tree.Add(Device, Interfaces(BluezName.Battery, new(StringComparer.Ordinal) { ["Percentage"] = (byte)81 }));
        tree.Refresh(Device, BluezName.Device, new(StringComparer.Ordinal) { ["Connected"] = true });
        Assert.True(tree.IsTrue(Device, BluezName.Device, "Connected"));
        Assert.Null(tree.Get(Device, BluezName.Device, "RSSI"));
        Assert.Equal(81, tree.Get(Device, BluezName.Battery, "Percentage")!.Value.GetByte());
    }

    [Fact]
    public void What_was_on_the_bus_from_the_start_is_of_one_age_whatever_its_order()
    {
        const string Later = Device + "/service0001/char0001";
        tree.Load(new(StringComparer.Ordinal)
        {
            [Value] = Interfaces(BluezName.Characteristic, []),
            [Device] = Interfaces(BluezName.Device, Properties(resolved: true)),
            [Later] = Interfaces(BluezName.Characteristic, []),
        });
        Assert.Equal([Later, Value], tree.Below(Device, BluezName.Characteristic));
    }

    private static BusInterfaces Interfaces(string name, Dictionary<string, VariantValue> properties) => new() { [name] = properties };

    private static Dictionary<string, VariantValue> Properties(bool resolved) => new(StringComparer.Ordinal) { ["ServicesResolved"] = resolved };

    private void Say(bool resolved) => tree.Change(new(Device, BluezName.Device, Properties(resolved), []));
}
