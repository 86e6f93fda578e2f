using System.Globalization;
using System.Security.Cryptography;
using CaptureAgent.Protocol.BtHome;

namespace CaptureAgent.Protocol.Tests.BtHome;

/// <summary>BTHome version 2. Vectors: the examples of bthome.io, pages Format and Encryption (home-assistant/bthome.io, src/format.html and src/encryption.html).</summary>
public sealed class BtHomeTests
{
    private static readonly byte[] Key = Convert.FromHexString("231d39c1d7cc1ab1aee224cd096db932");
    private static readonly byte[] Address = Convert.FromHexString("5448E68F80A5");

    [Theory]
    [InlineData("02C40903BF13", "02=25.00 03=50.55")]
    [InlineData("04138A01", "04=1008.83")]
    [InlineData("02CA0902CF09", "02=25.06 02=25.11")]
    [InlineData("015DFE5D0903B718", "01=93")]
    [InlineData("FECA09", "")]
    [InlineData("0009", "00=9")]
    [InlineData("0161", "01=97")]
    [InlineData("451101", "45=27.3")]
    [InlineData("57EA", "57=-22")]
    [InlineData("58EA", "58=-7.70")]
    [InlineData("2E23", "2E=35")]
    [InlineData("065E1F", "06=80.30")]
    [InlineData("073E1D", "07=74.86")]
    [InlineData("0C020C", "0C=3.074")]
    [InlineData("3D0960", "3D=24585")]
    [InlineData("5AEAEA", "5A=-5398")]
    [InlineData("1501", "15=1")]
    [InlineData("505D396164", "50=1684093277")]
    [InlineData("530C48656C6C6F20576F726C64210161", "01=97")]
    [InlineData("3C00000161", "01=97")]
    [InlineData("F001000161", "F0=1 01=97")]
    [InlineData("F1000102040161", "01=97")]
    [InlineData("3B0105FF0161", "01=97")]
    public void The_published_objects_are_read(string payload, string objects) =>
        Assert.Equal(objects, Read(new BtHomeReceiver(), "40" + payload));

    [Theory]
    [InlineData("4002CA", "")]
    [InlineData("40016102CA", "01=97")]
    [InlineData("40", "")]
    [InlineData("4053FF41", "")]
    [InlineData("4454", "")]
    public void An_object_that_is_cut_ends_the_reading_and_what_came_before_it_stands(string hex, string objects) => Assert.Equal(objects, Read(new BtHomeReceiver(), hex));

    [Theory]
    [InlineData("")]
    [InlineData("E102CA09")]
    [InlineData("2002CA09")]
    [InlineData("42A5808F")]
    public void Another_version_or_no_content_is_refused(string hex) =>
        Assert.NotEqual(LineFault.None, new BtHomeReceiver().Take(Convert.FromHexString(hex), []));

    [Fact]
    public void A_trigger_based_device_and_one_that_tells_its_address_are_read()
    {
        Assert.Equal("3A=1", Read(new BtHomeReceiver(), "443A01"));
        Assert.Equal("02=25.06", Read(new BtHomeReceiver(), "42A5808FE6485402CA09"));
    }

    [Fact]
    public void A_packet_id_that_was_the_last_one_is_a_repetition()
    {
        var receiver = new BtHomeReceiver();
        Assert.Equal("00=9 02=25.06", Read(receiver, "40000902CA09"));
        Assert.Equal("", Read(receiver, "40000902CA09"));
        Assert.Equal("00=10 02=25.06", Read(receiver, "40000A02CA09"));
        Assert.Equal("00=9 02=25.06", Read(receiver, "40000902CA09"));
    }

    // The counters of the published examples, in the order in which they rise; the last is worked out with the same key.
    [Theory]
    [InlineData("41e445f3c9962b332211006c7c4519", "02=25.06 03=50.55")]
    [InlineData("41a47266c95f730011223378237214", "02=25.06 03=50.55")]
    [InlineData("4187b90011223372b0231f", "21=1")]
    [InlineData("43A5808FE64854F196C06FFB4900112233F08ECBDE", "02=25.06 03=50.55")]
    [InlineData("41053db159da0eda010000007f70bc6b", "00=5 01=97 02=27.28")]
    public void The_published_encrypted_examples_are_opened(string hex, string objects) => Assert.Equal(objects, Read(new BtHomeReceiver(Key, Address), hex));

    [Fact]
    public void A_counter_must_rise()
    {
        var receiver = new BtHomeReceiver(Key, Address);
        Assert.Equal("02=25.06 03=50.55", Read(receiver, Seal(5, "02CA0903BF13")));
        Refused(receiver, Seal(5, "02CA0903BF13"));
        Refused(receiver, Seal(4, "02CF09"));
        Assert.Equal("02=25.11", Read(receiver, Seal(6, "02CF09")));
    }

    [Fact]
    public void A_counter_may_begin_anew_only_after_its_end()
    {
        var receiver = new BtHomeReceiver(Key, Address);
        Assert.Equal("0161", Hex(receiver, Seal(uint.MaxValue - 1, "0161")));
        Assert.Equal("0162", Hex(receiver, Seal(3, "0162")));
        Refused(receiver, Seal(uint.MaxValue - 1, "0161"), because: "that one was heard before the counter went round");
        Assert.Equal("0163", Hex(receiver, Seal(4, "0163")));
    }

    [Fact]
    public void A_forged_counter_does_not_lock_the_device_out()
    {
        var receiver = new BtHomeReceiver(Key, Address);
        var forged = Convert.FromHexString(Seal(0x7FFF_FFFF, "0161"));
        forged[^1] ^= 1;
        Refused(receiver, Convert.ToHexString(forged));
        Assert.Equal("01=97", Read(receiver, Seal(1, "0161")));
    }

    [Fact]
    public void With_a_key_plain_advertisements_are_refused_and_without_one_encrypted_ones()
    {
        Refused(new BtHomeReceiver(Key, Address), "4002CA09");
        Refused(new BtHomeReceiver(), "41e445f3c9962b332211006c7c4519");
    }

    [Theory]
    [InlineData("41e445f3c9962b332211006c7c4518")]
    [InlineData("41e445f3c9962b342211006c7c4519")]
    [InlineData("45e445f3c9962b332211006c7c4519")]
    [InlineData("4133221100")]
    [InlineData("41")]
    public void What_was_not_made_with_the_key_is_refused(string hex) => Refused(new BtHomeReceiver(Key, Address), hex);

    [Fact]
    public void Another_device_s_address_opens_nothing() =>
        Refused(new BtHomeReceiver(Key, Convert.FromHexString("5448E68F80A6")), "41e445f3c9962b332211006c7c4519");

    private static string Read(BtHomeReceiver receiver, string hex)
    {
        List<BtHomeObject> objects = [];
        Assert.Equal(LineFault.None, receiver.Take(Convert.FromHexString(hex), objects));
        return string.Join(' ', objects.Select(one => string.Create(CultureInfo.InvariantCulture, $"{one.Id:X2}={one.Value}")));
    }

    private static string Hex(BtHomeReceiver receiver, string hex)
    {
        List<BtHomeObject> objects = [];
        Assert.Equal(LineFault.None, receiver.Take(Convert.FromHexString(hex), objects));
        return string.Concat(objects.Select(one => $"{one.Id:x2}{(int)one.Value:x2}"));
    }

    private static void Refused(BtHomeReceiver receiver, string hex, string? because = null)
    {
        List<BtHomeObject> objects = [new(1, 2)];
        Assert.True(receiver.Take(Convert.FromHexString(hex), objects) == LineFault.NotAuthentic, because);
        Assert.Empty(objects);
    }

    private static string Seal(uint counter, string payload)
    {
        var plain = Convert.FromHexString(payload);
        var count = BitConverter.GetBytes(counter);
        byte[] nonce = [.. Address, 0xD2, 0xFC, 0x41, .. count], cipher = new byte[plain.Length], tag = new byte[4];
        using var aes = new AesCcm(Key);
        aes.Encrypt(nonce, plain, cipher, tag);
        return "41" + Convert.ToHexString(cipher) + Convert.ToHexString(count) + Convert.ToHexString(tag);
    }
}
