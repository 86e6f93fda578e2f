using CaptureAgent.Protocol.Gatt;

namespace CaptureAgent.Protocol.Tests.Gatt;

/// <summary>Services that many devices have. Vectors of Current Time: bluetooth-sig-python, test_current_time.py; the others are worked out from the layouts.</summary>
public sealed class CommonServicesTests
{
    [Theory]
    [InlineData("64", 100)]
    [InlineData("00", 0)]
    [InlineData("11", 17)]
    [InlineData("65", null)]
    [InlineData("FF", null)]
    [InlineData("", null)]
    public void A_battery_level_is_a_per_cent(string hex, int? percent) => Assert.Equal(percent, BatteryLevel.Read(Convert.FromHexString(hex)));

    [Theory]
    [InlineData("31323300", "123")]
    [InlineData("4D31", "M1")]
    [InlineData("204D3120200000", "M1")]
    [InlineData("", "")]
    [InlineData("41FF42", "A\uFFFDB")]
    [InlineData("410A42", "AB")]
    public void A_device_s_texts_are_freed_of_what_fills_them_up(string hex, string text) => Assert.Equal(text, DeviceInformation.Text(Convert.FromHexString(hex)));

    [Theory]
    [InlineData("2a29", "4D616B6572", "maker Maker")]
    [InlineData("2a24", "4D3100", "model M1")]
    [InlineData("2a25", "0000", null)]
    [InlineData("2a26", "312E30", "firmware 1.0")]
    [InlineData("2a27", "42", "hardware B")]
    [InlineData("2a28", "32", "software 2")]
    [InlineData("2a50", "02341278560001", "product 1234:5678, version 0100")]
    [InlineData("2a19", "11", "battery 17 %")]
    [InlineData("2a2b", "E907010F0E1E2D032101", "its own clock 2025-01-15 14:30:45")]
    [InlineData("2a9d", "00B036", null)]
    [InlineData(null, "00B036", null)]
    public void What_a_device_says_of_itself_is_put_in_words(string? uuid, string hex, string? words) =>
        Assert.Equal(words, KnownCharacteristic.Describe(uuid, Convert.FromHexString(hex)));

    [Fact]
    public void A_pnp_id_names_its_vendor()
    {
        Assert.Equal(new PnpId(2, 0x1234, 0x5678, 0x0100), DeviceInformation.ReadPnpId(Convert.FromHexString("02341278560001")));
        Assert.Null(DeviceInformation.ReadPnpId(Convert.FromHexString("023412785600")));
    }

    [Theory]
    [InlineData("E907010F0E1E2D032101", 2025, 1, 15, 14, 30, 45, 3, 0x21, TimeAdjustments.Manual)]
    [InlineData("E9070C1F173B3B07FF06", 2025, 12, 31, 23, 59, 59, 7, 0xFF, TimeAdjustments.ExternalReference | TimeAdjustments.TimeZone)]
    [InlineData("000000000C1E00010000", 0, 0, 0, 12, 30, 0, 1, 0, TimeAdjustments.None)]
    public void The_current_time_is_read(string hex, int year, int month, int day, int hour, int minute, int second, int dayOfWeek, int fractions, TimeAdjustments adjusted) =>
        Assert.Equal(new CurrentTime(new(year, month, day, hour, minute, second), dayOfWeek, fractions, adjusted), CurrentTime.Read(Convert.FromHexString(hex)));

    [Theory]
    [InlineData("E9070D0F0E1E2D032101")]
    [InlineData("E90701200E1E2D032101")]
    [InlineData("E907010F181E2D032101")]
    [InlineData("E907010F0E3C2D032101")]
    [InlineData("E907010F0E1E3C032101")]
    [InlineData("E907010F0E1E2D082101")]
    [InlineData("0100010F0E1E2D032101")]
    [InlineData("E907010F0E1E2D0321")]
    public void What_no_clock_shows_is_no_time(string hex) => Assert.Null(CurrentTime.Read(Convert.FromHexString(hex)));
}
