using System.Globalization;
using System.Text.Json.Nodes;
using CaptureAgent.Acceptance.Tests.Agent;
using Xunit;

namespace CaptureAgent.Acceptance.Tests.Bench;

/// <summary>A station in a folder of its own: station.json, an invented register with some history, sockets for a scale and a scanner.</summary>
internal sealed class Station : IDisposable
{
    public const string Amazon = "AM-0147", Conure = "CN-0321", Grey = "GR-0096";

    /// <summary>How long the nursery day has lasted: a test never runs over its end.</summary>
    private const int HoursIntoTheDay = 6;

    public Station()
    {
        Folder = Directory.CreateTempSubdirectory("acceptance-").FullName;
        Scale = new Socket(File("usb-scale"));
        Scanner = new Socket(File("usb-scanner"));
        var dayStarted = DateTime.UtcNow.AddHours(-HoursIntoTheDay);
        Today = DateOnly.FromDateTime(dayStarted);
        Write("station.json", $$"""
            {
              "station": "bench",
              "timeZone": "Etc/UTC",
              "page": { "listen": "http://127.0.0.1:0" },
              "dayStartsAt": "{{dayStarted:HH}}:00",
              "codes": { "pattern": "[A-Z]{2}-[0-9]{4}" },
              "devices": [
                { "id": "scale", "role": "scale", "dialect": "header-comma", "divisionGrams": 0.1, "capacityGrams": 3000,
                  "connection": { "kind": "serial", "path": "{{Scale.Path}}", "baud": 9600 } },
                { "id": "scanner", "role": "scanner", "dialect": "line",
                  "connection": { "kind": "serial", "path": "{{Scanner.Path}}" } }
              ]
            }
            """);
        Write("register.csv", $"code,species,hatched\n{Amazon},amazon,{Day(-24)}\n{Conure},conure,{Day(-18)}\n{Grey},grey,{Day(-29)}\n");
        Write("history.csv", "chick,date,grams\n" + string.Concat(HistoryRows.Select(row => row + "\n")));
    }

    public string Folder { get; }

    public Socket Scale { get; }

    public Socket Scanner { get; }

    /// <summary>The nursery day that it is now.</summary>
    public DateOnly Today { get; }

    /// <summary>As they stand in history.csv.</summary>
    public IReadOnlyList<string> HistoryRows =>
    [
        $"{Amazon},{Day(-2)},168.9", $"{Conure},{Day(-2)},52.1", $"{Grey},{Day(-2)},284.0",
        $"{Amazon},{Day(-1)},177.5", $"{Conure},{Day(-1)},55.4", $"{Grey},{Day(-1)},297.8",
    ];

    /// <summary>Puts other values into station.json.</summary>
    /// <param name="keys">Such as <c>"answers": { "voice": "none" }</c>; each takes the place of the key that is there.</param>
    public void Configure(string keys)
    {
        var station = JsonNode.Parse(System.IO.File.ReadAllText(File("station.json")))!.AsObject();
        foreach (var (key, value) in JsonNode.Parse($"{{{keys}}}")!.AsObject())
            station[key] = value?.DeepClone();
        Write("station.json", station.ToJsonString());
    }

    /// <summary>A probe beside the scale that sends lines of text.</summary>
    public Socket AddProbe()
    {
        var probe = new Socket(File("usb-probe"));
        var device = $$"""{ "id": "probe", "role": "probe", "dialect": "text", "connection": { "kind": "serial", "path": "{{probe.Path}}" } }""";
        Write("station.json", System.IO.File.ReadAllText(File("station.json")).Replace("\"devices\": [", $"\"devices\": [ {device},", StringComparison.Ordinal));
        return probe;
    }

    public string File(string name) => Path.Combine(Folder, name);

    public void Write(string name, string text) => System.IO.File.WriteAllText(File(name), text);

    /// <summary>A calendar date, counted from today.</summary>
    public string Day(int days) => Today.AddDays(days).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    public Task<Ended> DoAsync(params string[] arguments) => AgentProgram.RunAsync(Folder, arguments);

    /// <summary>Names the chicks and what they weighed on the two days before.</summary>
    public async Task ImportAsync()
    {
        foreach (var (what, file) in (List<(string, string)>)[("register", "register.csv"), ("weights", "history.csv")])
        {
            var done = await DoAsync("import", what, file);
            Assert.True(done.Code == 0, done.Error);
        }
    }

    /// <summary>The rows that <c>export weights</c> gives, as column and value.</summary>
    public async Task<IReadOnlyList<IReadOnlyDictionary<string, string>>> WeightsAsync()
    {
        var done = await DoAsync("export", "weights");
        Assert.True(done.Code == 0, done.Error);
        var lines = done.Output.Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        var columns = lines[0].Split(',');
        return [.. lines.Skip(1).Select(line => columns.Zip(line.Split(',')).ToDictionary(cell => cell.First, cell => cell.Second))];
    }

    /// <summary>The one row that tells what the event told.</summary>
    public async Task HasRowOfAsync(AgentEvent weighing)
    {
        var grams = weighing.Grams.ToString("F3", CultureInfo.InvariantCulture);
        var row = Assert.Single(await WeightsAsync(), row => row["chick"] == weighing.Chick && row["date"] == Day(0) && row["grams"] == grams);
        Assert.Equal(weighing.Text("verdict"), row["verdict"]);
        Assert.Equal(weighing.Reasons, row["reasons"].Split(';', StringSplitOptions.RemoveEmptyEntries).Order(StringComparer.Ordinal));
        Assert.Equal(weighing.At, DateTimeOffset.Parse(row["at"], CultureInfo.InvariantCulture));
        Assert.Equal(weighing.Number("uncertaintyGrams"), decimal.Parse(row["uncertaintyGrams"], CultureInfo.InvariantCulture));
    }

    public void Dispose()
    {
        Scale.Dispose();
        Scanner.Dispose();
        Directory.Delete(Folder, recursive: true);
    }
}
