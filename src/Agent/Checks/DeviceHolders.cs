namespace CaptureAgent.Agent.Checks;

/// <summary>Which programs have a device file open, as far as this user may see (proc(5)).</summary>
internal static class DeviceHolders
{
    /// <summary>As in "python3 (pid 812)"; empty if none can be seen.</summary>
    public static IReadOnlyList<string> Of(string path)
    {
        var device = Resolve(path);
        return device is null || !Directory.Exists("/proc") ? [] :
        [
            .. Directory.EnumerateDirectories("/proc")
                .Where(process => Path.GetFileName(process).All(char.IsAsciiDigit) && Path.GetFileName(process) != $"{Environment.ProcessId}" && Holds(process, device))
                .Select(process => $"{Name(process)} (pid {Path.GetFileName(process)})"),
        ];
    }

    private static string? Resolve(string path)
    {
        try
        {
            return File.ResolveLinkTarget(path, returnFinalTarget: true)?.FullName ?? path;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    // A process may end, or be another user's, while it is looked at.
    private static bool Holds(string process, string device)
    {
        try
        {
            return Directory.EnumerateFileSystemEntries($"{process}/fd").Any(file => new FileInfo(file).LinkTarget == device);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    private static string Name(string process)
    {
        try
        {
            return File.ReadAllText($"{process}/comm").Trim();
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return "a program";
        }
    }
}
