namespace CaptureAgent.Protocol.Codes;

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
