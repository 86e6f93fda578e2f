namespace CaptureAgent.Protocol.Codes;

/// <summary>The check characters of ISO/IEC 7064 that a chick's code may carry.</summary>
public enum CheckScheme
{
    None,
    Mod37Comma2,
    Mod97Comma10,
    Mod11Comma2,
}

/// <summary>The schemes by the names used in the station's configuration.</summary>
public static class CheckSchemes
{
    public static IReadOnlyList<string> Names { get; } = ["none", "mod37-2", "mod97-10", "mod11-2"];

    /// <summary>Reads a name exactly as it is written in <see cref="Names"/>.</summary>
    public static bool TryParse(string name, out CheckScheme scheme)
    {
        (var known, scheme) = name switch
        {
            "none" => (true, CheckScheme.None),
            "mod37-2" => (true, CheckScheme.Mod37Comma2),
            "mod97-10" => (true, CheckScheme.Mod97Comma10),
            "mod11-2" => (true, CheckScheme.Mod11Comma2),
            _ => (false, CheckScheme.None),
        };
        return known;
    }
}
