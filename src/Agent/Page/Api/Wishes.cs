namespace CaptureAgent.Agent.Page.Api;

/// <summary>A chick to register, or what is to stand of one.</summary>
/// <param name="Reason">Why it is changed; not needed for a new one.</param>
internal sealed record ChickWish(
    string? Code, string? Species, DateOnly? Hatched, string? Clutch, string? Brooder, string? Band, DateOnly? Left, string? Note, string? Reason);

/// <param name="Grams">More than 0; null: as weighed.</param>
/// <param name="Chick">A chick of the register; null: the one it was.</param>
internal sealed record CorrectionWish(decimal? Grams, string? Chick, string? Reason);

internal sealed record TakeBackWish(string? Reason);

/// <param name="Role">look or keeper.</param>
internal sealed record CodeWish(string? Role);

/// <param name="Name">What the device is called in every correction it makes.</param>
internal sealed record PairingWish(string? Code, string? Name);
