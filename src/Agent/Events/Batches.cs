using System.Text.Json.Serialization;

namespace CaptureAgent.Agent.Events;

/// <summary>A temperature of formula.</summary>
/// <param name="UncertaintyCelsius">One standard uncertainty.</param>
/// <param name="Settled">False: a forecast while the probe still moves.</param>
/// <param name="ShownCelsius">What the probe shows at this moment.</param>
internal sealed record ProbeEvent(
    DateTimeOffset At, string Device, decimal Celsius, decimal UncertaintyCelsius, bool Settled, decimal ShownCelsius) : StationEvent(At)
{
    public override string Name => "probe";
}

/// <summary>A batch of formula changed its state, or the forecast of its cooling moved. It is told at once: a warning does not wait for a disk.</summary>
internal sealed record BatchEvent(
    DateTimeOffset At, int Batch, string State, decimal? Celsius, DateTimeOffset? DiscardAt, DateTimeOffset? BelowBandAt) : DecisionEvent(At)
{
    public override string Name => "batch";

    /// <summary>The probe that measures it.</summary>
    public string? Device { get; init; }

    public DateTimeOffset MixedAt { get; init; }

    public DateTimeOffset? InRangeSince { get; init; }

    /// <summary>Ends of the 95 % interval of <see cref="BelowBandAt"/>.</summary>
    public DateTimeOffset? BelowBandSoonest { get; init; }

    public DateTimeOffset? BelowBandLatest { get; init; }

    /// <summary>How many chicks it will still feed at today's pace, before it is too cold or too old; null before the pace is known.</summary>
    public int? ChicksInTime { get; init; }

    /// <summary>The probe was checked within the time for which a check counts, and was good.</summary>
    public bool ProbeChecked { get; init; }

    public DateTimeOffset? ProbeCheckedAt { get; init; }

    [JsonIgnore]
    public DateOnly Day { get; init; }

    /// <summary>The probe's time constant; null until it is known.</summary>
    [JsonIgnore]
    public double? ConstantSeconds { get; init; }

    [JsonIgnore]
    public override bool ToldFirst => true;

    /// <summary>Only what changes a state is a row.</summary>
    [JsonIgnore]
    public override bool IsKept => StateChanged;

    [JsonIgnore]
    public bool StateChanged { get; init; }
}

/// <summary>A dip has shown the lag of a probe: the next forecast is the better for it.</summary>
/// <param name="ConstantSeconds">The time constant that this dip showed.</param>
internal sealed record ProbeLagEvent(DateTimeOffset At, string Device, double ConstantSeconds) : DecisionEvent(At)
{
    public override string Name => "probe-lag";

    [JsonIgnore]
    public string Lags { get; init; } = "";
}

/// <summary>A probe was checked against a known temperature.</summary>
/// <param name="Kind">ice, boil or reference.</param>
/// <param name="ErrorCelsius">What it shows less what it should show: stored, and taken off later readings if it is within the tolerance.</param>
internal sealed record ProbeCheckEvent(
    DateTimeOffset At, string Device, string Kind, decimal Celsius, decimal ExpectedCelsius, decimal ErrorCelsius, decimal ToleranceCelsius, bool Ok, string Text)
    : DecisionEvent(At)
{
    public override string Name => "check";
}
