using System.Text;
using CaptureAgent.Agent.Configuration;
using Xunit;

namespace CaptureAgent.Agent.Tests.Configuration;

/// <summary>Described frames in station.json: a description is used only when it reads what was seen with known masses. The frames are invented.</summary>
public sealed class FrameRulesTests : IDisposable
{
    private const string Proven = """{ "known": 0, "frame": "a50000a5" }, { "known": 100, "frame": "a5e80390" }, { "known": 500, "frame": "a588135d" }""";

    private readonly string folder = Directory.CreateTempSubdirectory("frame-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void A_description_that_reads_an_empty_pan_and_two_known_masses_is_used()
    {
        // A5, number (low byte first), sum less one carry: nothing is said of the last byte.
        var device = Load(Scale(Proven)).Devices[0];
        Assert.Equal((1, 0.1m, "fff1", 3), (device.Frame!.Value!.Offset, device.Frame.Value.Factor, device.Frame.Characteristic, device.Frame.Proof.Count));
    }

    [Theory]
    [InlineData("", "not proven")]
    [InlineData("""{ "known": 0, "frame": "a50000a5" }, { "known": 100, "frame": "a5e80390" }""", "not proven")]
    [InlineData("""{ "known": 50, "frame": "a5f40100" }, { "known": 100, "frame": "a5e80390" }, { "known": 500, "frame": "a588135d" }""", "not proven")]
    [InlineData("""{ "known": 0, "frame": "a50000a5" }, { "known": 100, "frame": "a5e80390" }, { "known": 101, "frame": "a5f20300" }""", "not proven")]
    [InlineData("""{ "known": 0, "frame": "a50000a5" }, { "known": 100.2, "frame": "a5e80390" }, { "known": 500, "frame": "a588135d" }""", "makes 100 g of it, and 100.2 g lay on the pan")]
    [InlineData("""{ "known": 0.2, "frame": "a50000a5" }, { "known": 0, "frame": "a50000a5" }, { "known": 100, "frame": "a5e80390" }, { "known": 500, "frame": "a588135d" }""", "allowed is one division, 0.1 g")]
    [InlineData("""{ "known": 0, "frame": "a500" }, { "known": 100, "frame": "a5e80390" }, { "known": 500, "frame": "a588135d" }""", "too short")]
    [InlineData("""{ "known": 0, "frame": "b50000a5" }, { "known": 100, "frame": "a5e80390" }, { "known": 500, "frame": "a588135d" }""", "begins with other bytes")]
    [InlineData("""{ "known": 0, "frame": "a5 00" }""", "pairs of hexadecimal digits")]
    public void One_that_does_not_is_refused_with_what_to_do(string proof, string problem) => AssertFault(Scale(proof), "devices[0].frame.proof", problem);

    [Theory]
    [InlineData("\"value\": { \"offset\": 1, \"width\": 5 }", "devices[0].frame.value.width", "1 to 4")]
    [InlineData("\"value\": { \"offset\": 1, \"endianness\": \"middle\" }", "devices[0].frame.value.endianness", "little, big")]
    [InlineData("\"value\": { \"offset\": 1, \"sign\": \"bit\", \"signMask\": \"00\" }", "devices[0].frame.value.signMask", "a bit set")]
    [InlineData("\"value\": { \"offset\": 1, \"factor\": 0 }", "devices[0].frame.value.factor", "0.000001 to 1000")]
    [InlineData("\"value\": { \"offset\": 1, \"unit\": \"C\" }", "devices[0].frame.value.unit", "g, kg, mg, oz, lb")]
    [InlineData("\"minLength\": 4", "devices[0].frame.value", "missing")]
    [InlineData("\"value\": { \"offset\": 1 }, \"characteristic\": \"ff\"", "devices[0].frame.characteristic", "a UUID")]
    [InlineData("\"value\": { \"offset\": 1 }, \"start\": \"a5\"", "devices[0].frame.characteristic", "a start command needs it")]
    [InlineData("\"value\": { \"offset\": 1 }, \"checksum\": { \"kind\": \"crc32\" }", "devices[0].frame.checksum.kind", "sum, xor, crc8, crc16")]
    [InlineData("\"value\": { \"offset\": 1 }, \"units\": { \"offset\": 3, \"table\": [ { \"byte\": \"1\", \"unit\": \"st\" } ] }", "devices[0].frame.units.table[0].byte", "two hexadecimal digits")]
    [InlineData("\"value\": { \"offset\": 1 }, \"clock\": { \"offset\": 0 }", "devices[0].frame.clock.milliseconds", "0.001 to 60000 ms")]
    [InlineData("\"value\": { \"ofset\": 1 }", "devices[0].frame.value.ofset", "Did you mean 'offset'")]
    public void A_description_that_cannot_be_is_refused_with_its_place(string keys, string path, string problem) =>
        AssertFault($$"""{ "devices": [ { "id": "scale", "role": "scale", "dialect": "frame", "frame": { {{keys}} } } ] }""", path, problem);

    [Fact]
    public void A_scale_without_a_description_is_sent_to_the_command_that_finds_one() =>
        AssertFault("""{ "devices": [ { "id": "scale", "role": "scale", "dialect": "frame" } ] }""", "devices[0].frame", "devices --listen scale");

    [Fact]
    public void While_one_is_looked_for_nothing_needs_to_be_proven()
    {
        Load("""{ "devices": [ { "id": "scale", "role": "scale", "dialect": "frame" } ] }""", framesAreProven: false);
        Load(Scale(""), framesAreProven: false);
    }

    [Fact]
    public void A_probe_is_proven_at_two_temperatures()
    {
        const string probe = """{ "devices": [ { "id": "probe", "role": "probe", "dialect": "frame", "frame": { "value": { "offset": 0, "factor": 0.1 }, "proof": [ PROOF ] } } ] }""";
        const string ice = """{ "known": 0, "frame": "0200" }, """;
        Load(probe.Replace("PROOF", ice + """{ "known": 40, "frame": "9001" }""", StringComparison.Ordinal));
        AssertFault(probe.Replace("PROOF", ice + """{ "known": 40, "frame": "9601" }""", StringComparison.Ordinal), "proof[1].frame", "makes 40.6 °C of it");
        AssertFault(probe.Replace("PROOF", ice + """{ "known": 5, "frame": "3200" }""", StringComparison.Ordinal), "proof", "two known temperatures");
    }

    [Theory]
    [InlineData("weight-scale", "\"value\": { \"offset\": 1 }", true)]
    [InlineData("weight-scale", "\"characteristic\": \"fff1\"", true)]
    [InlineData("header-comma", "\"value\": { \"offset\": 1 }", true)]
    [InlineData("header-comma", "\"characteristic\": \"fff1\", \"start\": \"01\"", false)]
    public void Other_dialects_take_of_it_only_where_lines_come_from(string dialect, string keys, bool isRefused)
    {
        var json = $$"""{ "devices": [ { "id": "scale", "role": "scale", "dialect": "{{dialect}}", "frame": { {{keys}} } } ] }""";
        if (isRefused)
            AssertFault(json, "devices[0].frame", "means nothing here");
        else
            Load(json);
    }

    [Fact]
    public void A_key_of_bthome_needs_the_address_in_a_replay_too()
    {
        const string device = """{ "devices": [ { "id": "probe", "role": "probe", "dialect": "bthome", "key": "231d39c1d7cc1ab1aee224cd096db932"ADDRESS } ] }""";
        AssertFault(device.Replace("ADDRESS", "", StringComparison.Ordinal), "devices[0].connection.address", "in a replay too");
        Load(device.Replace("ADDRESS", """, "connection": { "kind": "bluetooth", "address": "54:48:E6:8F:80:A5" }""", StringComparison.Ordinal));
    }

    // The example of the contracts, whose probe and scanner have connections that only a run opens.
    [Fact]
    public void A_station_with_bluetooth_and_a_keyboard_starts_in_a_replay() => Load("""
        {
          "station": "east-room", "codes": { "pattern": "[A-Z]{2}-[0-9]{4}", "check": "none" },
          "devices": [
            { "id": "scale", "role": "scale", "dialect": "header-comma", "divisionGrams": 0.1, "capacityGrams": 3000,
              "connection": { "kind": "serial", "path": "/dev/serial/by-id/...", "baud": 9600, "dataBits": 8, "parity": "none", "stopBits": 1, "flow": "none" } },
            { "id": "probe", "role": "probe", "dialect": "health-thermometer", "connection": { "kind": "bluetooth", "address": "C0:FF:EE:00:00:01" } },
            { "id": "scanner", "role": "scanner", "dialect": "line", "connection": { "kind": "keyboard", "path": "/dev/input/by-id/..." } }
          ]
        }
        """);

    [Theory]
    [InlineData("scale", "weight-scale")]
    [InlineData("scale", "bthome")]
    [InlineData("scale", "hid")]
    [InlineData("probe", "health-thermometer")]
    [InlineData("probe", "environmental-sensing")]
    [InlineData("probe", "bthome")]
    [InlineData("scanner", "transponder")]
    public void The_other_dialects_need_nothing_more(string role, string dialect) =>
        Load($$"""{ "devices": [ { "id": "it", "role": "{{role}}", "dialect": "{{dialect}}" } ] }""");

    private static string Scale(string proof) => $$"""
        { "devices": [ { "id": "scale", "role": "scale", "dialect": "frame", "divisionGrams": 0.1,
          "frame": { "service": "fff0", "characteristic": "fff1", "minLength": 4, "begins": "a5", "value": { "offset": 1, "factor": 0.1 }, "proof": [ {{proof}} ] } } ] }
        """;

    private void AssertFault(string json, string path, string problem)
    {
        var fault = Assert.Throws<ConfigurationException>(() => Load(json));
        Assert.Contains(fault.Faults, one => one.Path.Contains(path, StringComparison.Ordinal) && one.Problem.Contains(problem, StringComparison.Ordinal));
    }

    private StationOptions Load(string json, bool framesAreProven = true)
    {
        var path = Path.Combine(folder, "station.json");
        File.WriteAllText(path, json, new UTF8Encoding(false));
        return StationFile.Load(path, devicesAreOpened: false, framesAreProven);
    }
}
