using System.Text;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Labels;
using Microsoft.Extensions.Configuration;
using Xunit;

namespace CaptureAgent.Agent.Tests.Configuration;

public sealed class StationFileTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("station-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void A_full_file_is_bound()
    {
        var station = Load("""
            {
              "station": "east-room", "timeZone": "Europe/Lisbon", "dayStartsAt": "04:30", "store": "round.db",
              "page": { "listen": "http://127.0.0.1:9000" },
              "codes": { "pattern": "[A-Z]{2}-[0-9]{4}", "check": "mod37-2", "cards": { "fed": "!EATEN" } },
              "labels": { "symbol": "data-matrix", "sheet": "mine", "sheets": [ { "name": "mine", "pageWidthMillimetres": 100, "pageHeightMillimetres": 150, "columns": 2, "rows": 4, "leftMillimetres": 2,
                "topMillimetres": 3, "labelWidthMillimetres": 45, "labelHeightMillimetres": 30, "gapAcrossMillimetres": 4, "gapDownMillimetres": 5 } ] },
              "answers": { "device": "speaker", "loudness": 80, "quietFrom": "21:00", "quietUntil": "06:30", "language": "es", "lamp": { "kind": "gpio", "green": "17", "yellow": "27", "red": "22" } },
              "feedFollowsWeighing": true, "hygiene": { "washHours": 6, "panBetweenClutches": false },
              "feeding": { "emptyingGap": [ { "throughDay": 3, "hours": 1 }, { "hours": 5.5 } ], "nightFrom": "22:30", "kitchenScaleGrams": 0.5,
                "plan": [ { "throughDay": 9, "everyHours": 2.5, "throughNight": true }, { "everyHours": 6 } ],
                "fat": [ { "species": "Ara macao", "fromDay": 20, "percent": 1.5 } ], "chicks": [ { "chick": "AM-0147", "weaned": true } ] },
              "devices": [
                { "id": "scale", "role": "scale", "dialect": "header-comma", "divisionGrams": 0.1, "capacityGrams": 3000, "accuracyGrams": 0.2,
                  "connection": { "kind": "serial", "path": "/dev/ttyUSB0", "baud": 4800, "dataBits": 7, "parity": "even", "stopBits": 2, "flow": "xon-xoff" } },
                { "id": "scanner", "role": "scanner", "dialect": "line" }, // read in a replay
              ]
            }
            """);

        Assert.Equal(("east-room", "Europe/Lisbon", new TimeOnly(4, 30), "round.db"), (station.Station, station.TimeZone, station.DayStartsAt, station.Store));
        Assert.Equal("http://127.0.0.1:9000", station.Page.Listen);
        Assert.Equal(("[A-Z]{2}-[0-9]{4}", "mod37-2", "!EATEN", "!UNDO"), (station.Codes.Pattern, station.Codes.Check, station.Codes.Cards.Fed, station.Codes.Cards.Undo));
        Assert.Equal([(3, 1.0), (null, 5.5)], station.Feeding.EmptyingGap.Select(step => (step.ThroughDay, step.Hours)));
        Assert.True(station.FeedFollowsWeighing);
        Assert.Equal(("data-matrix", "mine"), (station.Labels.Symbol, station.Labels.Sheet));
        Assert.Equal(new LabelSheet("mine", 100, 150, 2, 4, 2, 3, 45, 30, 4, 5), LabelRules.All(station.Labels).First());
        Assert.Equal(("speaker", 80, new TimeOnly(21, 0), new TimeOnly(6, 30), 15, "auto", "es"),
            (station.Answers.Device, station.Answers.Loudness, station.Answers.QuietFrom, station.Answers.QuietUntil, station.Answers.QuietLoudness, station.Answers.Voice, station.Answers.Language));
        Assert.Equal(("gpio", "17", "27", "22"), (station.Answers.Lamp.Kind, station.Answers.Lamp.Green, station.Answers.Lamp.Yellow, station.Answers.Lamp.Red));
        Assert.Equal((6.0, 7.0, false), (station.Hygiene.WashHours, station.Hygiene.SyringeDays, station.Hygiene.PanBetweenClutches));
        Assert.Equal((new TimeOnly(22, 30), new TimeOnly(6, 0), 0.5m), (station.Feeding.NightFrom, station.Feeding.NightUntil, station.Feeding.KitchenScaleGrams));
        Assert.Equal([(9, 2.5, true), (null, 6.0, false)], station.Feeding.Plan.Select(step => (step.ThroughDay, step.EveryHours, step.ThroughNight)));
        Assert.Equal(("Ara macao", 20, 1.5), (station.Feeding.Fat[0].Species, station.Feeding.Fat[0].FromDay, station.Feeding.Fat[0].Percent));
        Assert.True(station.Feeding.Chicks[0].Weaned);
        var scale = station.Devices[0];
        Assert.Equal((0.1m, 3000m, 0.2m), (scale.DivisionGrams, scale.CapacityGrams, scale.AccuracyGrams));
        var connection = scale.Connection!;
        Assert.Equal(("/dev/ttyUSB0", 4800, 7, "even", 2, "xon-xoff"), (connection.Path, connection.Baud, connection.DataBits, connection.Parity, connection.StopBits, connection.Flow));
        Assert.Null(station.Devices[1].Connection);
    }

    [Fact]
    public void Every_key_but_three_of_a_device_has_a_default()
    {
        var station = Load("""{ "devices": [ { "id": "scale", "role": "scale", "dialect": "sign-value" } ] }""");

        Assert.Equal(("station", "Etc/UTC", new TimeOnly(3, 0), "capture.db"), (station.Station, station.TimeZone, station.DayStartsAt, station.Store));
        Assert.Equal([(5, 1.5), (20, 2.5), (null, 4.0)], station.Feeding.EmptyingGap.Select(step => (step.ThroughDay, step.Hours)));
        Assert.Null(station.Devices[0].DivisionGrams);
    }

    [Fact]
    public void A_byte_order_mark_is_allowed() => Assert.Equal("a", Load("\uFEFF{ \"station\": \"a\" }").Station);

    [Fact]
    public void The_binder_itself_refuses_an_unknown_key()
    {
        var configuration = new ConfigurationBuilder().AddInMemoryCollection([new("devices:0:connection:bauds", "9600")]).Build();

        var refusal = Assert.Throws<InvalidOperationException>(() => StationFile.Bind(configuration));
        Assert.Contains("bauds", refusal.ToString(), StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData("{\n  \"station\": \"a\",\n  \"store\": x\n}", "not JSON at line 3, column 12")]
    [InlineData("", "not JSON at line 1")]
    [InlineData("[{}]", "station.json: must be one JSON object")]
    [InlineData("{ \"station\": \"a\",\n \"Station\": \"b\" }", "Station: stands twice, the second time on line 2")]
    [InlineData("""{ "devices": [ {}, { "id": "a", "id": "b" } ] }""", "devices[1].id: stands twice")]
    [InlineData("""{ "devices:0:id": "a" }""", "no key has a colon")]
    public void What_is_no_proper_JSON_is_said_with_its_place(string json, string problem)
    {
        var fault = Assert.Throws<ConfigurationException>(() => Load(json));

        Assert.Contains(problem, fault.Message, StringComparison.Ordinal);
        Assert.Contains(Path.Combine(folder, "station.json"), fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_missing_file_is_said_so() =>
        Assert.Contains("no such file", Assert.Throws<ConfigurationException>(() => StationFile.Load(Path.Combine(folder, "none.json"), false)).Message, StringComparison.Ordinal);

    [Fact]
    public void A_folder_in_place_of_the_file_is_said_so() =>
        Assert.Contains("cannot be read", Assert.Throws<ConfigurationException>(() => StationFile.Load(folder, false)).Message, StringComparison.Ordinal);

    [Fact]
    public void The_working_directory_is_the_first_place_to_look()
    {
        File.WriteAllText(Path.Combine(folder, "station.json"), "{}");

        Assert.Equal(Path.Combine(folder, "station.json"), StationFile.Find(null, folder));
        Assert.Equal(Path.Combine(folder, "other.json"), StationFile.Find("other.json", folder));
    }

    [Fact]
    public void The_table_of_keys_is_the_shape_of_the_options() => AssertSameKeys(StationKeys.Root, typeof(StationOptions), "");

    private StationOptions Load(string json)
    {
        var path = Path.Combine(folder, "station.json");
        File.WriteAllText(path, json, new UTF8Encoding(false));
        return StationFile.Load(path, devicesAreOpened: false);
    }

    private static void AssertSameKeys(KeyGroup group, Type type, string path)
    {
        var properties = type.GetProperties().ToDictionary(property => char.ToLowerInvariant(property.Name[0]) + property.Name[1..], property => property.PropertyType);
        Assert.Equal(properties.Keys.Order(), group.Keys.Keys.Order());
        foreach (var (key, shape) in group.Keys)
        {
            if (shape is KeyGroup inner)
                AssertSameKeys(inner, properties[key], $"{path}.{key}");
            else if (shape is KeyList { Item: KeyGroup item })
                AssertSameKeys(item, properties[key].GetGenericArguments()[0], $"{path}.{key}[]");
        }
    }
}
