using CaptureAgent.Simulators.Physics.Pan;
using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Simulators.Physics.Placings;

/// <summary>The script of one placing from a bare pan to the lift, and its truth. Its readings follow from it and its seed alone.</summary>
public sealed record Placing
{
    /// <summary>The kind of placing; results are told per family.</summary>
    public required string Family { get; init; }

    public required ulong Seed { get; init; }

    public required ScaleSpecification Scale { get; init; }

    public required IReadOnlyList<PanLoad> Loads { get; init; }

    public required IReadOnlyList<PanAction> Actions { get; init; }

    public IReadOnlyList<ScaleKey> Keys { get; init; } = [];

    /// <summary>Where the script ends.</summary>
    public required double Seconds { get; init; }

    public required PlacingTruth Truth { get; init; }

    /// <summary>When the chick's code is scanned; null: never.</summary>
    public double? CodeAt { get; init; }

    /// <summary>What a keeper's record would lead one to expect of this chick today.</summary>
    public required double ExpectedGrams { get; init; }

    /// <summary>How the link delivers; readings keep their own time beside.</summary>
    public Delivery Delivery { get; init; } = Delivery.AtOnce;

    /// <summary>The readings in order of arrival.</summary>
    public IEnumerable<Delivered> Readings() => Delivery.Deliver(Shown(), Seed ^ 0xD1CE);

    private IEnumerable<ScaleSample> Shown()
    {
        var pan = new PanForces(Seed);
        foreach (var load in Loads)
            pan.Add(load);
        foreach (var action in Actions)
            pan.Schedule(action);
        var simulation = new WeighingSimulation(pan, new(Scale, Seed ^ 0x5CA1E));
        foreach (var key in Keys.OrderBy(key => key.At))
        {
            foreach (var sample in simulation.Until(key.At))
                yield return sample;
            key.Press(simulation.Scale, pan.Seconds);
        }

        foreach (var sample in simulation.Until(Seconds))
            yield return sample;
    }
}
