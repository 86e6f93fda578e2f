using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Protocol.FrameFinding;

/// <summary>A unit that a device may count in, against grams or degrees Celsius.</summary>
internal sealed record FoundUnit(string Name, decimal Scale, decimal Offset, bool IsUsual)
{
    public static IReadOnlyList<FoundUnit> OfScales { get; } =
    [
        new("g", 1, 0, true), new("oz", MassUnits.GramsPer(MassUnit.Ounce), 0, false), new("lb", MassUnits.GramsPer(MassUnit.Pound), 0, false),
    ];

    /// <summary>Degrees Fahrenheit: NIST SP 811, B.8.</summary>
    public static IReadOnlyList<FoundUnit> OfProbes { get; } = [new("C", 1, 0, true), new("F", 5m / 9, 32, false)];

    public decimal FromBase(decimal value) => value / Scale + Offset;

    public decimal ToBase(decimal value) => (value - Offset) * Scale;

    public decimal StepToBase(decimal step) => step * Scale;
}
