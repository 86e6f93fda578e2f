using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Weighing;

namespace CaptureAgent.Agent.Round;

/// <summary>A placing with the code that names it.</summary>
internal sealed class Load(Placing placing)
{
    public Placing Placing { get; } = placing;

    public string? Code { get; private set; }

    /// <summary>When the code was given to this load.</summary>
    public DateTimeOffset CodedAt { get; private set; }

    public DateTimeOffset ScannedAt { get; private set; }

    /// <summary>A different code that came while the load lay undecided, and when.</summary>
    public (string Code, DateTimeOffset At)? Second { get; set; }

    /// <summary>When it will be known whether the second code is this load's or the next one's.</summary>
    public DateTimeOffset? SecondJudgedAt { get; set; }

    /// <summary>It is a known mass, with which the scale is checked.</summary>
    public bool IsCheck { get; set; }

    /// <summary>The decision on it, once there is one; a check has none.</summary>
    public WeighingEvent? Weighing { get; private set; }

    public bool Decided { get; set; }

    /// <param name="moment">Seconds that the weight is of.</param>
    public void Decide(WeighingEvent weighing, double moment)
    {
        Decided = true;
        Weighing = weighing;
        Placing.WeighedSeconds = moment;
        Placing.Decide((double?)weighing.Grams);
    }

    /// <param name="scanned">When the code was read; it may have waited since.</param>
    public void Name(string code, DateTimeOffset at, DateTimeOffset scanned)
    {
        ScannedAt = scanned;
        Code = code;
        CodedAt = at;
        if (Placing.Samples is [.., var newest])
            Placing.CodedSeconds = newest.Seconds;
    }
}
