using CaptureAgent.Agent.Configuration;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Feeding.Batches;

/// <summary>One batch of formula: its clock, what was measured of it, and its state.</summary>
internal sealed class Batch(int number, DateOnly day, DateTimeOffset mixedAt, BatchOptions options)
{
    public int Number => number;

    /// <summary>The nursery day in which it was mixed.</summary>
    public DateOnly Day => day;

    public DateTimeOffset MixedAt => mixedAt;

    public DateTimeOffset DiscardAt { get; init; } = mixedAt + TimeSpan.FromMinutes((double)options.DiscardMinutes);

    /// <summary>The probe that measures it; null: none yet.</summary>
    public string? Device { get; set; }

    public string State { get; set; } = BatchStates.Unmeasured;

    /// <summary>Best value, °C; null while nothing measures it.</summary>
    public double? Celsius { get; set; }

    /// <summary>The time constant of the probe in it; null until it is known.</summary>
    public double? ConstantSeconds { get; set; }

    public DateTimeOffset? InRangeSince { get; set; }

    public bool Warned { get; set; }

    public Agreement Agreement { get; } = new((double)options.SpreadCelsius);

    public CoolingRecord? Cooling { get; set; }

    /// <summary>What was last told of when it falls below the band, and when.</summary>
    public (DateTimeOffset At, DateTimeOffset? Below)? Told { get; set; }

    /// <summary>When it is said that it must soon be thrown away; null: never, or said already.</summary>
    public DateTimeOffset? WarnAt
    {
        get
        {
            var minutes = options.WarningMinutes ?? Math.Min(5, options.DiscardMinutes / 2);
            return Warned || minutes <= 0 ? null : DiscardAt - TimeSpan.FromMinutes((double)minutes);
        }
    }

    /// <summary>When its state becomes <c>discard</c>; null if it is too old already.</summary>
    public DateTimeOffset? ExpiresAt => Expired ? null : DiscardAt;

    public bool Expired { get; set; }

    /// <summary>The batch of an earlier run: its clock goes on, and nothing measures it yet.</summary>
    public static Batch Resume(BatchRow row, BatchOptions options, DateTimeOffset now) => new(row.Number, row.Day, row.MixedAt, options)
    {
        DiscardAt = row.DiscardAt,
        Device = row.Device,
        Told = (now, null),
        Expired = row.DiscardAt <= now,
        Warned = row.DiscardAt <= now,
        State = row.DiscardAt <= now ? BatchStates.Discard : BatchStates.Unmeasured,
    };
}
