using CaptureAgent.Agent.Configuration;

namespace CaptureAgent.Agent.Round;

/// <summary>The command cards and what they wait for.</summary>
internal sealed class Cards(CardOptions options)
{
    public static readonly TimeSpan Waits = TimeSpan.FromSeconds(60);

    private readonly Dictionary<string, DateTimeOffset> permits = new(StringComparer.Ordinal);

    /// <summary>The fed card was scanned, and the next code is the chick that was fed.</summary>
    public DateTimeOffset? FedAt { get; set; }

    /// <summary>The re-weigh card was scanned, and the next code (or the chick just lifted) may be weighed again.</summary>
    public DateTimeOffset? ReweighAt { get; set; }

    /// <summary>The check card was scanned, and the next load is a known mass.</summary>
    public DateTimeOffset? CheckAt { get; set; }

    public string? JustLifted { get; set; }

    public DateTimeOffset? FedExpires => FedAt + Waits;

    public DateTimeOffset? ReweighExpires => ReweighAt + Waits;

    public DateTimeOffset? CheckExpires => CheckAt + Waits;

    public Card Find(string code)
    {
        if (code == options.Fed)
            return Card.Fed;
        if (code == options.Reweigh)
            return Card.Reweigh;
        if (code == options.Undo)
            return Card.Undo;
        if (code == options.Batch)
            return Card.Batch;
        if (code == options.Check)
            return Card.Check;
        if (code == options.Ice)
            return Card.Ice;
        if (code == options.Boil)
            return Card.Boil;
        if (code == options.Reference)
            return Card.Reference;
        return code == options.Tare ? Card.Tare : Card.Unknown;
    }

    /// <summary>The chick may be weighed again.</summary>
    public void Permit(string code, DateTimeOffset at)
    {
        permits[code] = at;
        ReweighAt = null;
    }

    /// <summary>The load that came without a code after the re-weigh card: the chick just lifted.</summary>
    public string? TakeImplied(DateTimeOffset at)
    {
        if (ReweighAt is null || JustLifted is not { } code)
            return null;
        Permit(code, at);
        return code;
    }

    /// <summary>Uses up the permission to weigh this chick again; a permission lasts ten minutes.</summary>
    public bool TakePermit(string code, DateTimeOffset at) =>
        permits.Remove(code, out var given) && at - given <= TimeSpan.FromMinutes(10);
}

internal enum Card
{
    Unknown,
    Fed,
    Reweigh,
    Undo,
    Batch,
    Tare,
    Check,
    Ice,
    Boil,
    Reference,
}
