using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Protocol;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Instruments;

/// <summary>A scale that sends lines: decoded, converted to grams, put on an even time axis, and handed to the round at this scale.</summary>
internal sealed class ScaleInstrument(DeviceOptions device, Round.Round round)
    : Instrument(device.Id, TimeSpan.FromSeconds(device.SilentAfterSeconds ?? DefaultSilentSeconds))
{
    private const double DefaultSilentSeconds = 10;

    private readonly LineFramer framer = new();
    private readonly IScaleDecoder decoder = ScaleDialects.Create(device.Dialect, device.Pattern, device.Sample).Decoder
        ?? throw new InvalidOperationException($"{device.Id}: the dialect was not checked at start.");
    private readonly LineTimes times = new();
    private MassUnit unit, firstUnit;

    protected override void OnBytes(DateTimeOffset at, ReadOnlySpan<byte> bytes, List<StationEvent> events)
    {
        while (framer.TryTakeLine(ref bytes, out var line))
        {
            if (decoder.Decode(line, out var reading) == LineFault.None)
                Take(at, times.Next(at), reading, events);
            else
                Refused++;
        }
    }

    protected override void OnLinkChange(DateTimeOffset at, LinkChange change, List<StationEvent> events)
    {
        framer.Reset();
        times.Reset();
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

        var grams = reading.Range == LoadRange.Within ? MassUnits.ToGrams(reading.Value, unit) : 0;
        round.OnSample(at, new PanSample(seconds, grams, reading.Range, reading.Stability, reading.Mark), events);
    }

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

    // In grams: as configured for the unit it started with, else the step of the last digit shown.
    private double DivisionOf(in ScaleReading reading) =>
        unit == firstUnit && device.DivisionGrams is { } division
            ? (double)division
            : (double)MassUnits.StepGrams(reading.Value, unit);
}
