using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Round;
using CaptureAgent.Agent.Tests.Round;
using CaptureAgent.Store;
using CsCheck;
using Xunit;

namespace CaptureAgent.Agent.Tests.Instruments;

/// <summary>Probes, scales and readers that send frames, from their bytes to the events.</summary>
public sealed class BinaryInstrumentTests
{
    private const string Key = "231d39c1d7cc1ab1aee224cd096db932";

    [Fact]
    public void A_health_thermometer_is_read_and_its_intermediate_values_are_never_settled()
    {
        var scene = new BinaryScene(null, BinaryScene.Probe("health-thermometer"));
        for (var i = 0; i < 8; i++)
            scene.Send("probe", "2a1e", "008E0100FF");
        Assert.All(scene.Temperatures, one => Assert.Equal((39.8m, false), (one.ShownCelsius, one.Settled)));
        for (var i = 0; i < 8; i++)
            scene.Send("probe", "2a1c", "008E0100FF");
        Assert.True(scene.Temperatures[^1].Settled);
        Assert.Equal(16, scene.Temperatures.Count);
    }

    [Theory]
    [InlineData("health-thermometer", "2a1c", "00FFFF7F00")]
    [InlineData("health-thermometer", "2a1c", "00FFFF7FFF")]
    [InlineData("health-thermometer", "2a6e", "A80E")]
    [InlineData("environmental-sensing", "2a6e", "0080")]
    [InlineData("bthome", "fcd2", "400161")]
    [InlineData("bthome", "fcd1", "4002A00F")]
    public void What_is_no_temperature_gives_no_event(string dialect, string source, string hex) =>
        Assert.Empty(new BinaryScene(null, BinaryScene.Probe(dialect)).Send("probe", source, hex).Temperatures);

    [Theory]
    [InlineData("environmental-sensing", "2a6e", "A80F", 40.08)]
    [InlineData("bthome", "fcd2", "4002A00F", 40.00)]
    [InlineData("bthome", "fcd2", "40458E0102A00F", 40.00)]
    [InlineData("bthome", "fcd2", "40458E01", 39.8)]
    public void Other_probes_are_read(string dialect, string source, string hex, double celsius) =>
        Assert.Equal((decimal)celsius, Assert.Single(new BinaryScene(null, BinaryScene.Probe(dialect)).Send("probe", source, hex).Temperatures).ShownCelsius);

    [Fact]
    public void With_a_key_plain_frames_and_counters_that_do_not_rise_are_ignored()
    {
        // Sealed with the published key and address of bthome.io: counters 1 and 2, 40.00 °C and 40.50 °C (worked out with AES-CCM).
        var scene = new BinaryScene(null, BinaryScene.Probe("bthome", device =>
        {
            device.Key = Key;
            device.Connection = new ConnectionOptions { Kind = "bluetooth", Address = "54:48:E6:8F:80:A5" };
        }));
        scene.Send("probe", "fcd2", "4002A00F").Send("probe", "fcd2", Sealed(1, 4000)).Send("probe", "fcd2", Sealed(1, 4000)).Send("probe", "fcd2", Sealed(2, 4050)).Send("probe", "fcd2", Sealed(1, 4000));
        Assert.Equal([40.00m, 40.50m], scene.Temperatures.Select(one => one.ShownCelsius));
    }

    [Fact]
    public void A_repeated_packet_gives_one_temperature()
    {
        var scene = new BinaryScene(null, BinaryScene.Probe("bthome")).Send("probe", "fcd2", "40000902A00F").Send("probe", "fcd2", "40000902A00F").Send("probe", "fcd2", "40000A02A00F");
        Assert.Equal(2, scene.Temperatures.Count);
    }

    [Fact]
    public void A_measurement_interval_puts_silence_off()
    {
        var scene = new BinaryScene(null, BinaryScene.Probe("health-thermometer")).Send("probe", "2a21", "3C00").Send("probe", "2a1c", "008E0100FF").Wait(170);
        Assert.DoesNotContain(scene.Events, one => one is DeviceEvent);
        Assert.Contains(scene.Wait(11).Events, one => one is DeviceEvent { State: "silent" });
    }

    [Fact]
    public void A_low_battery_is_told_once_and_again_after_it_was_charged()
    {
        var scene = new BinaryScene(null, BinaryScene.Probe("environmental-sensing"))
            .Send("probe", "2a19", "16").Send("probe", "2a19", "0F").Send("probe", "2a19", "0E").Send("probe", "2a19", "10").Send("probe", "2a19", "FF");
        var alert = Assert.Single(scene.Events.OfType<AlertEvent>());
        Assert.Equal(("battery-low", "probe"), (alert.Alert, alert.Device));
        scene.Send("probe", "2a19", "64").Send("probe", "2a19", "05");
        Assert.Equal(2, scene.Events.OfType<AlertEvent>().Count());
    }

    [Fact]
    public void A_battery_told_in_an_advertisement_counts_too_and_nought_means_never()
    {
        Assert.Single(new BinaryScene(null, BinaryScene.Probe("bthome")).Send("probe", "fcd2", "40010502A00F").Events.OfType<AlertEvent>());
        Assert.Empty(new BinaryScene(null, BinaryScene.Probe("bthome", device => device.BatteryWarnPercent = 0)).Send("probe", "fcd2", "40010002A00F").Events.OfType<AlertEvent>());
    }

    [Fact]
    public void A_hid_scale_weighs_a_chick()
    {
        var scene = new BinaryScene(null, BinaryScene.Scale("hid"));
        Play(scene, "hid", grams => $"030402FF{Low(grams)}{High(grams)}");
        var weighing = Assert.Single(scene.Weighings);
        Assert.Equal(("AM-0147", "accepted"), (weighing.Chick, weighing.Verdict));
        Assert.InRange(weighing.Grams!.Value, 186.2m, 186.6m);
    }

    [Fact]
    public void A_described_frame_weighs_a_chick_and_its_counter_puts_lumps_right()
    {
        // Counter, number (low byte first), sum: an invented layout; a frame every 100 ms, delivered four at a time.
        var count = 0;
        var scene = new BinaryScene(null, BinaryScene.Scale("frame", device => device.Frame = new FrameOptions
        {
            Characteristic = "0000FFF1-0000-1000-8000-00805F9B34FB",
            Value = new FrameValueOptions { Offset = 1, Factor = 0.1m },
            Checksum = new FrameChecksumOptions(),
            Clock = new FrameClockOptions { Offset = 0, Milliseconds = 100 },
        }));
        Play(scene, "fff1", grams =>
        {
            var head = $"{count++ & 0xFF:X2}{Low(grams)}{High(grams)}";
            return head + $"{Convert.FromHexString(head).Sum(one => one) & 0xFF:X2}";
        }, lump: 4);
        Assert.Equal("accepted", Assert.Single(scene.Weighings).Verdict);
        Assert.InRange(scene.Weighings[0].Grams!.Value, 186.2m, 186.6m);
    }

    [Fact]
    public void Lines_in_pieces_of_a_characteristic_are_lines()
    {
        var scene = new BinaryScene(null, BinaryScene.Scale("header-comma"));
        Play(scene, "fff1", grams => Convert.ToHexString(System.Text.Encoding.ASCII.GetBytes(FormattableString.Invariant($"ST,GS,+{grams,8:F1}  g\r\n"))));
        Assert.Equal("accepted", Assert.Single(scene.Weighings).Verdict);
    }

    [Fact]
    public void A_transponder_names_the_chick_that_wears_it()
    {
        var ledger = new Ledger(
            [
                new Chick("AM-0147", "amazon", new DateOnly(2026, 2, 6), Band: "999 123456789012"),
                new Chick("AM-0148", "amazon", new DateOnly(2026, 2, 6), Band: "999.123456789013", Left: new DateOnly(2026, 3, 1)),
                new Chick("AM-0149", "amazon", new DateOnly(2026, 2, 6), Band: "999123456789013"),
                new Chick("AM-0150", "amazon", new DateOnly(2026, 2, 6), Band: "999123456789014"),
                new Chick("AM-0151", "amazon", new DateOnly(2026, 2, 6), Band: "999-123456789014"),
            ], [], []);
        var scene = new BinaryScene(ledger, new DeviceOptions { Id = "reader", Role = "scanner", Dialect = "transponder" });
        foreach (var line in (string[])["999.123456789012", "999123456789012", "999123456789013", "999123456789014", "000123456789012", "981000000000001"])
            scene.Scan(line, device: "reader");
        Assert.Equal(
            [("AM-0147", "waits"), ("AM-0149", "waits"), ("999123456789014", "unreadable"), ("000123456789012", "unreadable"), ("981000000000001", "waits")],
            scene.Events.OfType<ScanEvent>().Select(one => (one.Code, one.Taken)));
    }

    [Fact]
    public void What_a_device_says_of_itself_is_no_reading()
    {
        // "M1", read once after connecting, between the two halves of a line; and a model that would make 40 °C as a described frame.
        var scene = new BinaryScene(null, BinaryScene.Scale("header-comma"), BinaryScene.Probe("frame", device => device.Frame = new FrameOptions { Value = new FrameValueOptions { Factor = 0.1m } }));
        scene.Send("scale", "fff1", Ascii("ST,GS,+   ")).Send("scale", "2a24", Ascii("M1")).Send("scale", "fff1", Ascii(" 8.2  g\r\n")).Send("probe", "2a24", "9001");
        Assert.Empty(scene.Temperatures);
        for (var i = 0; i < 30; i++)
            scene.Send("scale", "fff1", Ascii("ST,GS,+    8.2  g\r\n"), after: 0.1);
        Assert.Equal(8.2m, Assert.Single(scene.Events.OfType<TareEvent>()).Grams);
    }

    [Fact]
    public void Any_bytes_of_any_source_are_taken_by_every_dialect() => Gen.Select(
        Gen.OneOf("2a9d", "2a9e", "2a1c", "2a1e", "2a21", "2a6e", "2a19", "fcd2", "hid", "fff1", ""), Gen.Int[0, 9], Gen.Byte.Array[0, 20]).List[1, 60].Sample(records =>
    {
        DeviceOptions[] devices =
        [
            .. ((string[])["header-comma", "weight-scale", "bthome", "hid", "frame"]).Select(dialect => new DeviceOptions { Id = $"scale-{dialect}", Role = "scale", Dialect = dialect, Frame = Framed(dialect) }),
            .. ((string[])["text", "health-thermometer", "environmental-sensing", "bthome", "frame"]).Select(dialect => new DeviceOptions { Id = $"probe-{dialect}", Role = "probe", Dialect = dialect, Frame = Framed(dialect) }),
        ];
        var scene = new BinaryScene(null, devices);
        foreach (var (source, device, bytes) in records)
            scene.Send(devices[device].Id, source, Convert.ToHexString(bytes), after: 0.7);
        Assert.All(scene.Wait(120).Temperatures, one => Assert.InRange(one.Celsius, 30, 1_000_000));
    }, iter: 300);

    private static FrameOptions? Framed(string dialect) =>
        dialect == "frame" ? new FrameOptions { Value = new FrameValueOptions { Offset = 1 }, Stable = new FrameStableOptions(), Clock = new FrameClockOptions { Milliseconds = 50 } } : null;

    private static string Ascii(string text) => Convert.ToHexString(System.Text.Encoding.ASCII.GetBytes(text));

    /// <summary>A towel of 8.2 g, then the amazon of 186.4 g, at ten a second.</summary>
    private static void Play(BinaryScene scene, string source, Func<double, string> frame, int lump = 1)
    {
        var random = new Random(3);
        double[] levels = [.. Enumerable.Repeat(0.0, 20), .. Enumerable.Repeat(8.2, 70), .. Enumerable.Repeat(194.6, 120)];
        for (var i = 0; i < levels.Length; i++)
        {
            if (i == 80)
                scene.Scan("AM-0147", after: 0);
            var grams = levels[i] + (i < 90 ? 0 : 0.3 * (random.NextDouble() - 0.5));
            scene.Send("scale", source, frame(Math.Round(grams, 1)), after: i % lump == 0 ? 0.1 * lump : 0);
        }
    }

    private static string Low(double grams) => $"{(int)Math.Round(grams * 10) & 0xFF:X2}";

    private static string High(double grams) => $"{(int)Math.Round(grams * 10) >> 8:X2}";

    private static string Sealed(int counter, int hundredths)
    {
        byte[] plain = [0x02, (byte)(hundredths & 0xFF), (byte)(hundredths >> 8)], count = [(byte)counter, 0, 0, 0], cipher = new byte[3], tag = new byte[4];
        byte[] nonce = [0x54, 0x48, 0xE6, 0x8F, 0x80, 0xA5, 0xD2, 0xFC, 0x41, .. count];
        using var aes = new System.Security.Cryptography.AesCcm(Convert.FromHexString(Key));
        aes.Encrypt(nonce, plain, cipher, tag);
        return "41" + Convert.ToHexString([.. cipher, .. count, .. tag]);
    }
}
