using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Hygiene;
using CaptureAgent.Agent.Thriving;

namespace CaptureAgent.Agent.Round;

/// <summary>The command cards and what they wait for.</summary>
internal sealed class Cards(CardOptions options)
{
    public static readonly TimeSpan Waits = TimeSpan.FromSeconds(60);

    private readonly IList<ObservationCard> observations = options.Observations.Count > 0 ? options.Observations : CardOptions.DefaultObservations();

    private readonly Dictionary<string, DateTimeOffset> permits = new(StringComparer.Ordinal);

    /// <summary>The fed card was scanned, and the next code is the chick that was fed.</summary>
    public DateTimeOffset? FedAt { get; set; }

    /// <summary>The re-weigh card was scanned, and the next code (or the chick just lifted) may be weighed again.</summary>
    public DateTimeOffset? ReweighAt { get; set; }

    /// <summary>The check card was scanned, and the next load is a known mass.</summary>
    public DateTimeOffset? CheckAt { get; set; }

    /// <summary>The crop card was scanned, and the next code is the chick whose crop was seen full.</summary>
    public DateTimeOffset? CropAt { get; set; }

    /// <summary>What was seen of the chick whose code comes next.</summary>
    public (string Kind, DateTimeOffset At)? Seen { get; set; }

    public DateTimeOffset? SeenExpires => Seen?.At + Waits;

    public string? JustLifted { get; set; }

    public DateTimeOffset? FedExpires => FedAt + Waits;

    public DateTimeOffset? ReweighExpires => ReweighAt + Waits;

    public DateTimeOffset? CropExpires => CropAt + Waits;

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
        if (code == options.Pair)
            return Card.Pair;
        if (code == options.Crop)
            return Card.Crop;
        if (ChoreOf(code) is not null)
            return Card.Chore;
        if (code == options.Ice)
            return Card.Ice;
        if (code == options.Boil)
            return Card.Boil;
        if (code == options.Reference)
            return Card.Reference;
        if (code == options.Tare)
            return Card.Tare;
        return KindOf(code) is null ? Card.Unknown : Card.Observation;
    }

    /// <summary>What a card says of a chick; null: it says nothing of one.</summary>
    public string? KindOf(string code) => code == options.Weaning ? ObservationKinds.Weaning
        : observations.FirstOrDefault(each => each.Card == code)?.Kind;

    /// <summary>The chore of hygiene that a card says is done; null for other cards.</summary>
    public string? ChoreOf(string code)
    {
        if (code == options.Washed)
            return Chore.Wash;
        if (code == options.Syringe)
            return Chore.Syringe;
        if (code == options.Pan)
            return Chore.Pan;
        return code == options.Bowls ? Chore.Bowls : null;
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

    public bool IsPermitted(string code, DateTimeOffset at) =>
        permits.TryGetValue(code, out var given) && at - given <= TimeSpan.FromMinutes(10);

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

    /// <summary>The numbers are the same: answered where the question came from, at the link.</summary>
    Pair,
    Crop,
    Chore,
    Observation,
    Ice,
    Boil,
    Reference,
}
