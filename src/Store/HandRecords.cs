namespace CaptureAgent.Store;

/// <summary>What a person changed by hand. Exactly one of the last three is given.</summary>
/// <param name="Who">The paired device, or the station itself.</param>
/// <param name="Reason">In the person's words.</param>
/// <param name="Weighing">The row that was added by hand, in the place of another one.</param>
/// <param name="Undone">The weighing or the feed that was taken back.</param>
/// <param name="Chick">The chick whose registration was added or changed.</param>
public sealed record HandEntry(DateTimeOffset At, string Who, string Reason, Guid? Weighing = null, Guid? Undone = null, string? Chick = null);

/// <summary>What a paired device may do.</summary>
public enum PageRole
{
    /// <summary>See everything, change nothing.</summary>
    Look,

    /// <summary>Correct, take back, register, pair other devices.</summary>
    Keeper,
}

/// <summary>A code that pairs one device, once, until it expires.</summary>
/// <param name="Hash">SHA-256 of the code.</param>
public sealed record PairingCode(Guid Id, ReadOnlyMemory<byte> Hash, PageRole Role, DateTimeOffset MadeAt, DateTimeOffset ExpiresAt);

/// <summary>A device that has been paired.</summary>
/// <param name="EndedAt">Since when its token counts no more; null while it does.</param>
public sealed record PairedDevice(Guid Id, string Name, PageRole Role, DateTimeOffset At, DateTimeOffset? EndedAt);
