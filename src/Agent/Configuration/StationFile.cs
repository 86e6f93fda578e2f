using Microsoft.Extensions.Configuration;

namespace CaptureAgent.Agent.Configuration;

/// <summary>Reads station.json: bytes, JSON, keys, binding, rules. Every fault that can be seen is named at once.</summary>
internal static class StationFile
{
    public const string SystemPath = "/etc/capture-agent/station.json";

    private static ReadOnlySpan<byte> ByteOrderMark => [0xEF, 0xBB, 0xBF];

    /// <summary>The file that is meant: the one named, or the first there is of the default places.</summary>
    /// <exception cref="ConfigurationException">There is none.</exception>
    public static string Find(string? named, string workingDirectory)
    {
        if (named is not null)
            return Path.GetFullPath(named, workingDirectory);

        var here = Path.Combine(workingDirectory, "station.json");
        return File.Exists(here) ? here
            : File.Exists(SystemPath) ? SystemPath
            : throw new ConfigurationException("station.json", [new ConfigurationFault("", null, $"not found. Looked for {here} and {SystemPath}; name another with --station FILE.")]);
    }

    /// <param name="devicesAreOpened">For <c>run</c> and <c>check</c>: every device needs a connection that this version can open. In a replay connections are ignored.</param>
    /// <param name="framesAreProven">False while a frame description is being looked for.</param>
    /// <exception cref="ConfigurationException">The file cannot be read, or anything in it is wrong.</exception>
    public static StationOptions Load(string path, bool devicesAreOpened, bool framesAreProven = true)
    {
        var json = Read(path);
        if (json.AsSpan().StartsWith(ByteOrderMark))
            json = json[ByteOrderMark.Length..];

        var shape = JsonShape.Check(json);
        if (shape.Count > 0)
            throw new ConfigurationException(path, shape);

        using var stream = new MemoryStream(json);
        var configuration = new ConfigurationBuilder().AddJsonStream(stream).Build();
        var keys = new KeyCheck();
        keys.Look(configuration);

        var options = Bind(keys.Remainder(configuration));
        var known = keys.Faults.Select(fault => fault.Path).Concat(keys.Meant).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var faults = keys.Faults
            .Concat(StationRules.Check(options, devicesAreOpened, framesAreProven).Where(fault => !known.Contains(fault.Path)))
            .ToList();
        return faults.Count == 0 ? options : throw new ConfigurationException(path, faults);
    }

    /// <summary>Binds what has passed <see cref="KeyCheck"/>; still refuses an unknown key, should the two ever disagree.</summary>
    internal static StationOptions Bind(IConfiguration configuration)
    {
        var options = configuration.Get<StationOptions>(binder => binder.ErrorOnUnknownConfiguration = true) ?? new StationOptions();
        if (options.Feeding.EmptyingGap.Count == 0)
            options.Feeding.EmptyingGap = FeedingOptions.DefaultEmptyingGap();
        return options;
    }

    private static byte[] Read(string path)
    {
        try
        {
            return File.ReadAllBytes(path);
        }
        catch (Exception failure) when (failure is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new ConfigurationException(path, [new ConfigurationFault("", null, "there is no such file; name another with --station FILE.")]);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new ConfigurationException(path, [new ConfigurationFault("", null, $"cannot be read: {failure.Message}")]);
        }
    }
}
