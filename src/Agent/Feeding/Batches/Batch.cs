using CaptureAgent.Agent.Configuration;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Feeding.Batches;

/// <summary>One batch of formula: its clock, what was measured of it, and its state.</summary>
internal sealed class Batch(int number, DateOnly day, DateTimeOffset mixedAt, BatchOptions options)
{
    public int Number => number;

    /// <summary>Of the row of its first state; empty until that was told.</summary>
    public Guid Id { get; set; }

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

    /// <summary>Those whose place it took, by card.</summary>
    public IReadOnlyList<Batch> Instead { get; set; } = [];

    /// <summary>The card was taken back: it never began.</summary>
    public bool IsTakenBack { get; set; }

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
            return Warned || Expired || minutes <= 0 ? null : DiscardAt - TimeSpan.FromMinutes((double)minutes);
        }
    }

    /// <summary>When its state becomes <c>discard</c>; null if it is too old already.</summary>
    public DateTimeOffset? ExpiresAt => Expired ? null : DiscardAt;

    public bool Expired { get; set; }

    /// <summary>The newest settled temperature, °C, of an earlier run too; null if there is none.</summary>
    public double? SettledCelsius => Agreement.Celsius ?? before?.Celsius;

    /// <summary>The least that it can have by now from its own cooling; null where it was never settled.</summary>
    public double? Coldest(double seconds) => Cooling?.Expected(seconds)?.Least
        ?? (before is { } known ? CoolingRecord.Coldest(known.Celsius, seconds - known.Seconds) : null);

    private (double Seconds, double Celsius)? before;

    /// <summary>The moment at which an agent that was started again says how the batch stands; null: nothing changed, or it was said.</summary>
    public DateTimeOffset? ResumedAt { get; set; }

    /// <summary>The batch of an earlier run: its clock goes on, and nothing measures it yet.</summary>
    /// <param name="rows">Its states, oldest first.</param>
    public static Batch Resume(IReadOnlyList<BatchRow> rows, BatchOptions options, DateTimeOffset now)
    {
        var last = rows[^1];
        var old = last.DiscardAt <= now;
        var resumed = new Batch(last.Number, last.Day, last.MixedAt, options)
        {
            Id = rows[0].Id,
            DiscardAt = last.DiscardAt,
            Device = last.Device,
            Told = (now, null),
            Expired = old,
            State = old ? BatchStates.Discard : BatchStates.Unmeasured,
        };
        resumed.Warned = resumed.WarnAt <= now;
        if (resumed.State != last.State && now - last.MixedAt <= Longest)
            resumed.ResumedAt = now;
        if (rows.LastOrDefault(row => BatchStates.IsSettled(row.State) && row.Millicelsius is not null) is { } settled)
            resumed.before = (settled.At.Seconds(), settled.Millicelsius!.Value / 1000.0);
        return resumed;
    }

    /// <summary>No formula is used for longer (WHO/FAO 2007, of powdered infant formula).</summary>
    public static TimeSpan Longest { get; } = TimeSpan.FromHours(2);
}
