using CaptureAgent.Store;

namespace CaptureAgent.Agent.Page.Guard;

/// <summary>A new pairing code: what is shown, and what is stored of it.</summary>
internal static class PairingOffer
{
    public static (string Code, PairingCode Row) New(PageRole role, DateTimeOffset now)
    {
        var code = Secrets.NewCode();
        return (code, new PairingCode(Guid.CreateVersion7(now), Secrets.Hash(Secrets.Plain(code)), role, now, now + Secrets.CodeTime));
    }
}
