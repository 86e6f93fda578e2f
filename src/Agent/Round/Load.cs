using CaptureAgent.Agent.Weighing;

namespace CaptureAgent.Agent.Round;

/// <summary>A placing with the code that names it.</summary>
internal sealed class Load(Placing placing, DateTimeOffset at)
{
    public Placing Placing { get; } = placing;

    public DateTimeOffset PlacedAt { get; } = at;

    public string? Code { get; private set; }

    public DateTimeOffset CodedAt { get; private set; }

    /// <summary>A different code that came while the load lay undecided, and when.</summary>
    public (string Code, DateTimeOffset At)? Second { get; set; }

    public bool Decided { get; set; }

    public void Name(string code, DateTimeOffset at)
    {
        Code = code;
        CodedAt = at;
    }
}
