using System.Globalization;
using System.Text.Json.Nodes;

namespace CaptureAgent.Benchmarks.Rounds;

/// <summary>A folder of its own with a station's files; it goes when it is disposed.</summary>
internal sealed class RoundFiles : IDisposable
{
    public string Folder { get; } = Directory.CreateTempSubdirectory("capture-benchmark-").FullName;

    public string Station => In("station.json");

    public string Register => In("register.csv");

    public string Trace => In("round.ndjson");

    public string Store => In("capture.db");

    public string In(string name) => Path.Combine(Folder, name);

    /// <summary>The code of the i-th chick.</summary>
    public static string Code(int i) => string.Create(CultureInfo.InvariantCulture, $"AM-{i:0000}");

    /// <summary>station.json with a scale, a probe and a scanner, and a register.</summary>
    /// <param name="chicks">How many are registered.</param>
    /// <param name="ports">Device files by device; without them the station is for a replay.</param>
    /// <param name="listen">Where the page is.</param>
    public void Write(int chicks, IReadOnlyDictionary<string, string>? ports = null, string listen = "http://127.0.0.1:0")
    {
        var scale = Device("scale", "header-comma", ports);
        (scale["divisionGrams"], scale["capacityGrams"]) = (0.1m, 3000);
        var station = new JsonObject
        {
            ["station"] = "benchmark",
            // The day must not change in the middle of a live measurement: it starts half a day from now.
            ["dayStartsAt"] = ports is null ? "03:00" : DateTime.UtcNow.AddHours(12).ToString("HH:mm", CultureInfo.InvariantCulture),
            ["codes"] = new JsonObject { ["pattern"] = "[A-Z]{2}-[0-9]{4}" },
            ["page"] = new JsonObject { ["listen"] = listen },
            ["devices"] = new JsonArray(scale, Device("probe", "text", ports), Device("scanner", "line", ports)),
        };
        File.WriteAllText(Station, station.ToJsonString());
        File.WriteAllText(Register, "code,species,hatched\r\n" + string.Concat(Enumerable.Range(0, chicks).Select(i => Code(i) + ",,\r\n")));
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private static JsonObject Device(string role, string dialect, IReadOnlyDictionary<string, string>? ports)
    {
        var device = new JsonObject { ["id"] = role, ["role"] = role, ["dialect"] = dialect };
        if (ports is not null)
            device["connection"] = new JsonObject { ["kind"] = "serial", ["path"] = ports[role] };
        return device;
    }
}
