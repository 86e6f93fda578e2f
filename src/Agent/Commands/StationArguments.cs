using System.CommandLine;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Round;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Commands;

/// <summary>The two options that every command has: which station, which store.</summary>
internal sealed class StationArguments
{
    private readonly Option<string?> station = new("--station")
    {
        HelpName = "FILE",
        Description = $"The station's configuration. Default: station.json in the working directory, then {StationFile.SystemPath}.",
    };

    private readonly Option<string?> store = new("--store")
    {
        HelpName = "FILE",
        Description = "The store's file, in place of the one that station.json names.",
    };

    public StationArguments(Command command)
    {
        command.Options.Add(station);
        command.Options.Add(store);
    }

    /// <exception cref="ConfigurationException">station.json is missing or wrong.</exception>
    public Station Read(ParseResult parsed, Surroundings around, bool devicesAreOpened = false, bool framesAreProven = true)
    {
        var file = StationFile.Find(parsed.GetValue(station), around.WorkingDirectory);
        var options = StationFile.Load(file, devicesAreOpened, framesAreProven);
        var folder = Path.GetDirectoryName(file)!;
        options.Page.Certificate = options.Page.Certificate is { } certificate ? Path.GetFullPath(certificate, folder) : null;
        options.Page.CertificateKey = options.Page.CertificateKey is { } key ? Path.GetFullPath(key, folder) : null;
        return new Station(file, options, StorePath(parsed, around, file, options), parsed.GetValue(store) is not null);
    }

    /// <summary>For a command that needs no station: the defaults where none is named and none is found.</summary>
    /// <exception cref="ConfigurationException">The station.json that is there is wrong.</exception>
    public StationOptions ReadOrDefault(ParseResult parsed, Surroundings around) =>
        parsed.GetValue(station) is null && !File.Exists(Path.Combine(around.WorkingDirectory, "station.json")) && !File.Exists(StationFile.SystemPath)
            ? new StationOptions()
            : Read(parsed, around).Options;

    private string StorePath(ParseResult parsed, Surroundings around, string file, StationOptions options) =>
        parsed.GetValue(store) is { } named ? around.FullPath(named) : Path.GetFullPath(options.Store, Path.GetDirectoryName(file)!);
}

/// <summary>A station as a command sees it.</summary>
/// <param name="StorePath">Absolute.</param>
/// <param name="StoreIsNamed">The store was named on the command line.</param>
internal sealed record Station(string File, StationOptions Options, string StorePath, bool StoreIsNamed)
{
    public NurseryDay NurseryDay() => new(TimeZoneInfo.FindSystemTimeZoneById(Options.TimeZone), Options.DayStartsAt);

    /// <summary>Opens the store, and creates it if there is none.</summary>
    /// <exception cref="StoreException">It cannot be used.</exception>
    public CaptureStore OpenStore(TimeProvider time, TimeSpan? patience = null) => CaptureStore.Open(StorePath, time, patience);

    /// <summary>Opens a store that must be there: a command that only reads should not leave an empty one behind.</summary>
    /// <exception cref="StoreException">There is none, or it cannot be used.</exception>
    public CaptureStore OpenExistingStore(TimeProvider time) => OpenExisting(() => OpenStore(time));

    /// <summary>The same, only to read, and soon however long the history is.</summary>
    /// <exception cref="StoreException">There is none, or it cannot be used.</exception>
    public CaptureStore OpenToRead(TimeProvider time) => OpenExisting(() => CaptureStore.Open(StorePath, time, toRead: true));

    private CaptureStore OpenExisting(Func<CaptureStore> open) => System.IO.File.Exists(StorePath)
        ? open()
        : throw new StoreException($"There is no store {StorePath} yet.", "`capture-agent import register FILE` or `capture-agent run` creates it; --store FILE names another.");
}
