using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Protocol;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Instruments;

/// <summary>A scale: what it sends is decoded, converted to grams, put on an even time axis, and handed to the round at this scale.</summary>
internal sealed class ScaleInstrument(DeviceOptions device, Round.IScaleRound round)
    : Instrument(device, SilenceOf(device))
{
    private const double DefaultSilentSeconds = 10;

    /// <summary>A reading that came this long after it was sent came in a lump.</summary>
    private const double LateSeconds = 0.25;

    private readonly IReadingStream<ScaleReading> stream = Streams.Scale(device);
    private readonly LineTimes times = new();
    private readonly DeviceClock clock = new();
    private MassUnit unit, firstUnit;
    private WeightScaleFeature? feature;
    private ScaleReading last;

    protected override void OnBytes(DateTimeOffset at, string? source, ReadOnlySpan<byte> bytes, List<StationEvent> events)
    {
        if (source == "2a9e")
        {
            OnFeature(bytes);
            return;
        }

        while (stream.TryTake(source, ref bytes, out var reading, out var fault))
        {
            if (fault == LineFault.None)
                Take(at, stream.DeviceSeconds is { } told ? clock.Next(at, told) : times.Next(at), reading, events);
            else
                Refused++;
        }

        OnBattery(at, stream.BatteryPercent, events);
    }

    protected override void OnLinkChange(DateTimeOffset at, LinkChange change, List<StationEvent> events)
    {
        stream.Reset();
        times.Reset();
        clock.Reset();
        if (change == LinkChange.Down)
            round.OnLinkDown(at);
    }

    protected override void OnSilent(DateTimeOffset at) => round.OnLinkDown(at);

    private void Take(DateTimeOffset at, double seconds, in ScaleReading reading, List<StationEvent> events)
    {
        if (reading.Unit != MassUnit.None && reading.Unit != unit)
            Switch(at, reading, events);

        // A value without a unit is in the unit last shown; before one was shown it could be anything.
        if (reading.Range == LoadRange.Within && unit == MassUnit.None)
        {
            Refused++;
            return;
        }

        last = reading.Range == LoadRange.Within ? reading : last;
        var grams = reading.Range == LoadRange.Within ? MassUnits.ToGrams(reading.Value, unit) : 0;
        var range = reading.Range == LoadRange.Within && IsBeyond(grams, reading) ? LoadRange.Overload : reading.Range;
        var late = at.Seconds() - seconds > LateSeconds;
        round.OnSample(at, new PanSample(seconds, grams, range, reading.Stability, reading.Mark, late), events);
    }

    // It is read after connecting, when the first value may have come already.
    private void OnFeature(ReadOnlySpan<byte> bytes)
    {
        feature = WeightScaleFeature.Read(bytes) ?? feature;
        if (last.Unit != MassUnit.None)
            round.SetDivision(DivisionOf(last));
    }

    // What a scale shows above Max + 9 e is no weight (OIML R 76-1:2006, 4.2.3; from memory); those that are not verified show it all the same.
    private bool IsBeyond(decimal grams, in ScaleReading reading) =>
        Options.CapacityGrams is { } capacity && grams > capacity + 9 * (decimal)DivisionOf(reading);

    private void Switch(DateTimeOffset at, in ScaleReading reading, List<StationEvent> events)
    {
        var before = unit;
        unit = reading.Unit;
        if (before == MassUnit.None)
            firstUnit = unit;
        round.SetDivision(DivisionOf(reading));
        if (before == MassUnit.None)
            return;
        events.Add(new AlertEvent(at, "unit-changed", null, Id,
            $"The scale was switched from {Name(before)} to {Name(unit)}. Weights are converted exactly, but set it back: grams show the finest steps."));
        round.OnUnitChanged(at, events);
    }

    private static string Name(MassUnit unit) => unit switch
    {
        MassUnit.Gram => "g",
        MassUnit.Kilogram => "kg",
        MassUnit.Milligram => "mg",
        MassUnit.Ounce => "oz",
        _ => "lb",
    };

    // In grams: as configured for the unit it started with, else the step of the last digit shown; never finer than what the format or the scale itself can tell.
    private double DivisionOf(in ScaleReading reading)
    {
        var told = reading.StepGrams(unit);
        var division = unit == firstUnit && Options.DivisionGrams is { } configured ? Math.Max(configured, reading.Step is null ? 0 : told) : told;
        var own = unit == MassUnit.Pound ? feature?.WeightStepPounds : feature?.WeightStepKilograms;
        return (double)Math.Max(division, (own ?? 0) * MassUnits.GramsPer(unit));
    }

    // What sends only when it has something to say is not silent in between.
    private static TimeSpan? SilenceOf(DeviceOptions device) =>
        device.SilentAfterSeconds is { } seconds ? TimeSpan.FromSeconds(seconds)
        : Streams.IsFinished(device) ? null
        : TimeSpan.FromSeconds(DefaultSilentSeconds);
}
