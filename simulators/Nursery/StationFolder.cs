using System.Globalization;
using System.Text.Json.Nodes;
using CaptureAgent.Simulators.Instruments.Terminals;
using CaptureAgent.Simulators.Nursery.Flock;

namespace CaptureAgent.Simulators.Nursery;

/// <summary>A temporary folder with all that a station has: station.json, the CSV files to import, the store, and the sockets of its instruments.</summary>
internal sealed class StationFolder : IDisposable
{
    private readonly bool keep;

    public StationFolder(bool keep)
    {
        this.keep = keep;
        var sockets = System.IO.Path.Combine(Path, "by-id");
        Scale = new(sockets, "scale");
        Scanner = new(sockets, "scanner");
        Probe = new(sockets, "probe");
    }

    public string Path { get; } = Directory.CreateTempSubdirectory("capture-nursery-").FullName;

    public SerialSocket Scale { get; }

    public SerialSocket Scanner { get; }

    public SerialSocket Probe { get; }

    /// <param name="nursery">Whose register and history.</param>
    /// <param name="dayStartsAt">The local hour at which the nursery's day starts.</param>
    /// <param name="division">Of the scale.</param>
    public void Write(InventedNursery nursery, TimeOnly dayStartsAt, decimal division)
    {
        File.WriteAllText(System.IO.Path.Combine(Path, "register.csv"), nursery.RegisterCsv());
        File.WriteAllText(System.IO.Path.Combine(Path, "history.csv"), nursery.HistoryCsv());
        var station = new JsonObject
        {
            ["station"] = "demo",
            ["timeZone"] = "Etc/UTC",
            ["dayStartsAt"] = dayStartsAt.ToString("HH:mm", CultureInfo.InvariantCulture),
            ["store"] = System.IO.Path.Combine(Path, "capture.db"),
            ["codes"] = new JsonObject { ["pattern"] = "[A-Z]{2}-[0-9]{4}" },
            ["devices"] = new JsonArray(
                Device("scale", "scale", "header-comma", Scale.Path, division),
                Device("scanner", "scanner", "line", Scanner.Path, null),
                Device("probe", "probe", "text", Probe.Path, null)),
        };
        File.WriteAllText(System.IO.Path.Combine(Path, "station.json"), station.ToJsonString());
    }

    public void Dispose()
    {
        Scale.Dispose();
        Scanner.Dispose();
        Probe.Dispose();
        if (!keep)
            Directory.Delete(Path, recursive: true);
    }

    private static JsonObject Device(string id, string role, string dialect, string path, decimal? division)
    {
        var device = new JsonObject
        {
            ["id"] = id,
            ["role"] = role,
            ["dialect"] = dialect,
            ["connection"] = new JsonObject { ["kind"] = "serial", ["path"] = path, ["baud"] = 9600 },
        };
        if (division is { } grams)
            (device["divisionGrams"], device["capacityGrams"]) = (grams, 3000);
        return device;
    }
}
