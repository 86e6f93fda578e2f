using CaptureAgent.Agent.Weighing;

namespace CaptureAgent.Agent.Round;

/// <summary>A load of which the scale has sent one finished value.</summary>
/// <param name="grams">As the scale shows it.</param>
internal sealed class FinishedLoad(DateTimeOffset at, double grams, Placing placing)
{
    public DateTimeOffset At { get; } = at;

    public double Grams { get; } = grams;

    public Placing Placing { get; set; } = placing;

    /// <summary>An unnamed load that came before and may still lie under this one: a tub, or a chick without a code that was lifted unseen.</summary>
    public FinishedLoad? Under { get; init; }

    /// <summary>When its value was sent last; scales repeat it.</summary>
    public DateTimeOffset SeenAt { get; set; } = at;

    public string? Code { get; set; }

    public bool Decided { get; set; }

    /// <summary>Grams above the tare; not a number where there is none.</summary>
    public double Net => Placing.Tare is { } tare ? Grams - tare.Grams : double.NaN;
}
