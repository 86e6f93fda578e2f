using CaptureAgent.Agent.Configuration;
using Xunit;

namespace CaptureAgent.Agent.Tests.Configuration;

public sealed class StationFaultTests : IDisposable
{
    private const string Scale = """
        "id": "scale", "role": "scale", "dialect": "header-comma"
        """;

    private readonly string folder = Directory.CreateTempSubdirectory("station-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void All_faults_are_named_at_once()
    {
        var fault = Refused("""
            {
              "stor": "a.db", "timeZone": "Europe/Lisbom", "dayStartsAt": "25:00",
              "codes": { "check": "mod37" },
              "devices": [ { "id": "scale", "role": "scale", "dialect": "header-coma", "conection": { "baud": 1 } },
                           { "id": "scale", "role": "scaner", "dialect": "line", "connection": { "baud": "fast", "parity": "evn" } } ]
            }
            """);

        Assert.Equal(
            ["codes.check", "dayStartsAt", "devices[0].conection", "devices[0].dialect", "devices[1].connection.baud", "devices[1].connection.parity",
             "devices[1].id", "devices[1].role", "stor", "timeZone"],
            fault.Faults.Select(each => each.Path).Order(StringComparer.Ordinal));
        Assert.Contains("has 10 faults", fault.Message, StringComparison.Ordinal);
        Assert.Contains("stor is 'a.db': unknown key. Did you mean 'store'?", fault.Message, StringComparison.Ordinal);
        Assert.Contains("devices[1].connection.baud is 'fast': must be a whole number.", fault.Message, StringComparison.Ordinal);
        Assert.Contains("Did you mean 'even'?", fault.Message, StringComparison.Ordinal);
        Assert.Contains("Did you mean 'Europe/Lisbon'?", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_misspelt_key_is_not_missing_as_well()
    {
        var fault = Refused("""{ "devices": [ { "idd": "scale", "role": "scale", "dialect": "header-comma" } ] }""");

        Assert.Equal(["devices[0].idd"], fault.Faults.Select(each => each.Path));
        Assert.Contains("Did you mean 'id'?", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("""{ "station": "" }""", "station", "1 to 64")]
    [InlineData("""{ "labels": { "sheet": "9x9" } }""", "labels.sheet", "allowed: 2x5")]
    [InlineData("""{ "labels": { "symbol": "aztec" } }""", "labels.symbol", "qr, data-matrix")]
    [InlineData("""{ "labels": { "sheets": [ { "name": "mine", "columns": 3, "labelWidthMillimetres": 80, "labelHeightMillimetres": 30 } ] } }""", "labels.sheets[0]", "do not fit on its page")]
    [InlineData("""{ "labels": { "sheets": [ { "name": "3x8", "labelWidthMillimetres": 80, "labelHeightMillimetres": 30 } ] } }""", "labels.sheets[0].name", "already")]
    [InlineData("""{ "labels": { "sheets": [ { "name": "mine", "labelWidthMillimetres": 8, "labelHeightMillimetres": 30 } ] } }""", "labels.sheets[0].labelWidthMillimetres", "allowed: 20")]
    [InlineData("""{ "answers": { "loudness": 110 } }""", "answers.loudness", "allowed: 0 to 100 %")]
    [InlineData("""{ "answers": { "quietFrom": "21:00" } }""", "answers.quietUntil", "a beginning and an end")]
    [InlineData("""{ "answers": { "quietFrom": "21:00", "quietUntil": "21:00" } }""", "answers.quietUntil", "must differ")]
    [InlineData("""{ "answers": { "language": "sp" } }""", "answers.language", "allowed: en, es")]
    [InlineData("""{ "answers": { "voice": "loud" } }""", "answers.voice", "auto, none")]
    [InlineData("""{ "answers": { "lamp": { "kind": "gpio", "green": "17", "yellow": "27" } } }""", "answers.lamp.red", "output line")]
    [InlineData("""{ "answers": { "lamp": { "kind": "gpio", "green": "17", "yellow": "17", "red": "4" } } }""", "answers.lamp", "same line")]
    [InlineData("""{ "answers": { "lamp": { "kind": "serial", "green": "G", "yellow": "Y", "red": "R", "off": "0" } } }""", "answers.lamp.path", "missing")]
    [InlineData("""{ "feedFollowsWeighing": "yes" }""", "feedFollowsWeighing", "must be true or false")]
    [InlineData("""{ "feeding": { "plan": [ { "everyHours": 0.1 } ] } }""", "feeding.plan[0].everyHours", "allowed: 0.5 to 24 h")]
    [InlineData("""{ "feeding": { "plan": [ { "mostPercent": 20 } ] } }""", "feeding.plan[0].mostPercent", "allowed: 1 to 12 %")]
    [InlineData("""{ "feeding": { "plan": [ { "everyHours": 3 }, { "everyHours": 6 } ] } }""", "feeding.plan[0].throughDay", "only the last step")]
    [InlineData("""{ "feeding": { "plan": [ { "species": "Eos bornea" } ] } }""", "feeding.plan", "add one without species")]
    [InlineData("""{ "feeding": { "fat": [ { "percent": 1 } ] } }""", "feeding.fat[0].species", "named species only")]
    [InlineData("""{ "feeding": { "fat": [ { "species": "Ara macao", "percent": 9 } ] } }""", "feeding.fat[0].percent", "up to 5 %")]
    [InlineData("""{ "feeding": { "chicks": [ { "chick": "a" }, { "chick": "a" } ] } }""", "feeding.chicks[1].chick", "stands twice")]
    [InlineData("""{ "feeding": { "nightFrom": "06:00" } }""", "feeding.nightUntil", "must differ")]
    [InlineData("""{ "hygiene": { "syringeDays": -1 } }""", "hygiene.syringeDays", "allowed: 0 to 90 days")]
    [InlineData("""{ "codes": { "cards": { "crop": "!FED" } } }""", "codes.cards.crop", "the same code as codes.cards.fed")]
    [InlineData("""{ "station": null }""", "station", "null is no value")]
    [InlineData("""{ "station": ["a"] }""", "station", "not a group or a list")]
    [InlineData("""{ "page": 8790 }""", "page", "must be a group of keys: listen")]
    [InlineData("""{ "page": { "listen": "127.0.0.1:8790" } }""", "page.listen", "http or https address")]
    [InlineData("""{ "page": { "listen": "http://127.0.0.1:8790/x" } }""", "page.listen", "without a path")]
    [InlineData("""{ "dayStartsAt": "3" }""", "dayStartsAt", "such as 03:00")]
    [InlineData("""{ "codes": { "pattern": "(" } }""", "codes.pattern", "pattern")]
    [InlineData("""{ "codes": { "pattern": "(a)\\1" } }""", "codes.pattern", "back-reference")]
    [InlineData("""{ "codes": { "cards": { "fed": "FED" } } }""", "codes.cards.fed", "starts with '!'")]
    [InlineData("""{ "codes": { "cards": { "fed": "!UNDO" } } }""", "codes.cards.undo", "the same code as codes.cards.fed")]
    [InlineData("""{ "codes": { "cards": { "check": "!FED" } } }""", "codes.cards.check", "the same code as codes.cards.fed")]
    [InlineData("""{ "devices": [ { "id": "a", "role": "scale", "dialect": "sign-value", "checkMassGrams": 0 } ] }""", "devices[0].checkMassGrams", "0.1 to 1000000 g")]
    [InlineData("""{ "devices": [ { "id": "a", "role": "scale", "dialect": "sign-value", "checkMassGrams": 500, "capacityGrams": 300 } ] }""", "devices[0].checkMassGrams", "not be more than capacityGrams, 300")]
    [InlineData("""{ "devices": [ { "id": "a", "role": "scale", "dialect": "sign-value", "checkToleranceGrams": 0.1 } ] }""", "devices[0].checkToleranceGrams", "without checkMassGrams")]
    [InlineData("""{ "devices": [ { "id": "a", "role": "scale", "dialect": "sign-value", "checkMassGrams": 1, "checkToleranceGrams": 2 } ] }""", "devices[0].checkToleranceGrams", "smaller than checkMassGrams, 1")]
    [InlineData("""{ "feeding": { "emptyingGap": [ { "hours": 0 } ] } }""", "feeding.emptyingGap[0].hours", "more than 0")]
    [InlineData("""{ "feeding": { "emptyingGap": [ { "throughDay": 5, "hours": 1 } ] } }""", "feeding.emptyingGap[0].throughDay", "last step")]
    [InlineData("""{ "feeding": { "emptyingGap": [ { "hours": 1 }, { "hours": 2 } ] } }""", "feeding.emptyingGap[0].throughDay", "only the last")]
    [InlineData("""{ "feeding": { "emptyingGap": [ { "throughDay": 5, "hours": 1 }, { "throughDay": 5, "hours": 2 }, { "hours": 3 } ] } }""", "feeding.emptyingGap[1].throughDay", "6 or more")]
    [InlineData("""{ "devices": { "scale": {} } }""", "devices", "must be a list")]
    [InlineData("""{ "devices": "scale" }""", "devices", "must be a list")]
    [InlineData("""{ "devices": [ { "role": "scale", "dialect": "sign-value" } ] }""", "devices[0].id", "missing")]
    [InlineData("""{ "devices": [ { "id": "a b", "role": "scale", "dialect": "sign-value" } ] }""", "devices[0].id", "letters, digits")]
    [InlineData("""{ "devices": [ { "id": "a", "dialect": "sign-value" } ] }""", "devices[0].role", "missing; allowed: scale, probe, scanner")]
    [InlineData("""{ "devices": [ { "id": "a", "role": "scale" } ] }""", "devices[0].dialect", "header-comma, sign-value, request-reply, custom")]
    [InlineData("""{ "devices": [ { "id": "a", "role": "scale", "dialect": "line" } ] }""", "devices[0].dialect", "a dialect of a scanner")]
    [InlineData("""{ "devices": [ { "id": "a", "role": "probe", "dialect": "one-wire" } ] }""", "devices[0].dialect", "not served by this version. Served for a probe: health-thermometer, environmental-sensing, bthome, frame, text")]
    [InlineData("""{ "devices": [ { "id": "a", "role": "scale", "dialect": "modbus" } ] }""", "devices[0].dialect", "not served by this version. Served for a scale: header-comma")]
    public void A_fault_is_named_with_its_path_and_what_is_allowed(string json, string path, string problem)
    {
        var fault = Assert.Single(Refused(json).Faults);

        Assert.Equal(path, fault.Path);
        Assert.Contains(problem, fault.Problem, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"divisionGrams\": 0", "divisionGrams", "0.0001 to 100 g")]
    [InlineData("\"divisionGrams\": 50, \"capacityGrams\": 20", "divisionGrams", "smaller than capacityGrams")]
    [InlineData("\"capacityGrams\": \"heavy\"", "capacityGrams", "a number")]
    [InlineData("\"accuracyGrams\": -1", "accuracyGrams", "0.0001 to 1000 g")]
    [InlineData("\"silentAfterSeconds\": 1e300", "silentAfterSeconds", "0.5 to 86400 s")]
    [InlineData("\"pollMilliseconds\": 1", "pollMilliseconds", "20 to 60000 ms")]
    [InlineData("\"pollMilliseconds\": 100.5", "pollMilliseconds", "a whole number")]
    [InlineData("\"key\": \"abc\"", "key", "32 hexadecimal digits")]
    [InlineData("\"connection\": { \"kind\": \"seriel\" }", "connection.kind", "Did you mean 'serial'?")]
    [InlineData("\"connection\": { \"baud\": 10 }", "connection.baud", "50 to 4000000")]
    [InlineData("\"connection\": { \"dataBits\": 9 }", "connection.dataBits", "7 to 8")]
    [InlineData("\"connection\": { \"stopBits\": 3 }", "connection.stopBits", "1 to 2")]
    [InlineData("\"connection\": { \"flow\": \"hardware\" }", "connection.flow", "none, xon-xoff, rts-cts")]
    [InlineData("\"connection\": { \"address\": \"C0:FF:EE\" }", "connection.address", "six pairs")]
    [InlineData("\"connection\": { \"adapter\": \"hci0\" }", "connection.adapter", "six pairs")]
    [InlineData("\"connection\": { \"suspectAfterSeconds\": 0 }", "connection.suspectAfterSeconds", "1 to 86400 s")]
    public void A_fault_of_a_device_is_named(string key, string path, string problem)
    {
        var fault = Assert.Single(Refused($$"""{ "devices": [ { {{Scale}}, {{key}} } ] }""").Faults);

        Assert.Equal($"devices[0].{path}", fault.Path);
        Assert.Contains(problem, fault.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void A_secret_is_not_shown() =>
        Assert.DoesNotContain("231d39c1d7cc1ab1aee224cd096db93", Refused($$"""{ "devices": [ { {{Scale}}, "key": "231d39c1d7cc1ab1aee224cd096db93" } ] }""").Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("", "connection", "missing")]
    [InlineData(", \"connection\": { \"kind\": \"serial\" }", "connection.path", "/dev/serial/by-id")]
    [InlineData(", \"connection\": { \"kind\": \"one-wire\" }", "connection.kind", "not served by this version. Served: serial, bluetooth, keyboard, hid")]
    [InlineData(", \"connection\": { \"kind\": \"bluetooth\" }", "connection.address", "such as C0:FF:EE:00:00:01")]
    [InlineData(", \"connection\": { \"kind\": \"keyboard\" }", "connection.path", "-event-kbd")]
    public void What_only_a_live_device_needs_is_asked_for_only_then(string rest, string path, string problem)
    {
        var json = $$"""{ "devices": [ { {{Scale}}{{rest}} } ] }""";

        Assert.NotNull(Load(json, devicesAreOpened: false));
        var fault = Assert.Single(Assert.Throws<ConfigurationException>(() => Load(json, devicesAreOpened: true)).Faults);
        Assert.Equal($"devices[0].{path}", fault.Path);
        Assert.Contains(problem, fault.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void A_live_station_has_a_device() =>
        Assert.Equal("devices", Assert.Single(Assert.Throws<ConfigurationException>(() => Load("{}", devicesAreOpened: true)).Faults).Path);

    [Theory]
    [InlineData("""  "pattern": "(?<value>[0-9.]+) (?<unit>g)" """, "sample")]
    [InlineData("""  "sample": "1.0 g" """, "pattern")]
    [InlineData("""  "pattern": "(?<value>[0-9.]+) (?<unit>g)", "sample": "1.0 q" """, "sample")]
    [InlineData("""  "pattern": "(?<weight>[0-9.]+) (?<unit>g)", "sample": "1.0 g" """, "pattern")]
    public void A_custom_scale_needs_a_pattern_that_takes_its_sample(string keys, string named)
    {
        var message = Refused($$"""{ "devices": [ { "id": "a", "role": "scale", "dialect": "custom", {{keys}} } ] }""").Message;

        Assert.Contains("devices[0].", message, StringComparison.Ordinal);
        Assert.Contains(named, message, StringComparison.Ordinal);
    }

    private ConfigurationException Refused(string json) => Assert.Throws<ConfigurationException>(() => Load(json, devicesAreOpened: false));

    private StationOptions Load(string json, bool devicesAreOpened)
    {
        var path = Path.Combine(folder, "station.json");
        File.WriteAllText(path, json);
        return StationFile.Load(path, devicesAreOpened);
    }
}
