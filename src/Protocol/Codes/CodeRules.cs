namespace CaptureAgent.Protocol.Codes;

/// <summary>The check characters of ISO/IEC 7064 that a chick's code may carry.</summary>
public enum CheckScheme
{
    None,
    Mod37Comma2,
    Mod97Comma10,
    Mod11Comma2,
}

/// <summary>What a scanned line is.</summary>
public enum CodeKind
{
    Chick,

    /// <summary>A command card: starts with <c>!</c>.</summary>
    Card,

    /// <summary>Matches no pattern.</summary>
    Unreadable,

    /// <summary>Matches the pattern, but its check character says that it was misread.</summary>
    BadCheck,
}
