namespace CaptureAgent.Agent.Weighing;

/// <summary>One load, from the moment it comes until it is lifted.</summary>
internal sealed class Placing
{
    /// <summary>Readings kept as evidence: 20 minutes at 10 a second.</summary>
    private const int MaxSamples = 12_000;

    private readonly List<PanSample> samples;

    public Placing(double seconds, Rest? tare, IEnumerable<PanSample> before)
    {
        Seconds = seconds;
        Tare = tare;
        samples = [.. before];
    }

    /// <summary>When it came.</summary>
    public double Seconds { get; }

    /// <summary>What lay still before it; null where that is not known.</summary>
    public Rest? Tare { get; private set; }

    /// <summary>The tare was read while the load before was only just gone.</summary>
    public bool HastyTare { get; init; }

    /// <summary>Readings before and during, as evidence.</summary>
    public IReadOnlyList<PanSample> Samples => samples;

    /// <summary>Readings that did not fit into the evidence: counted, and the placing refused.</summary>
    public int Overflow { get; private set; }

    /// <summary>It has lain there for longer than a bump does.</summary>
    public bool Announced { get; set; }

    /// <summary>It has moved as only an animal does.</summary>
    public bool Animal { get; set; }

    public bool LinkLost { get; set; }

    /// <summary>The scale started anew, or zeroed itself, with the load on.</summary>
    public bool Restarted { get; set; }

    public bool UnitChanged { get; set; }

    /// <summary>The load was beyond the scale for long enough to be no passing press.</summary>
    public bool Overload { get; set; }

    public bool Underload { get; set; }

    /// <summary>Highest settled-looking level above the tare, for telling a lift from a wriggle; grams.</summary>
    public double Peak { get; set; }

    /// <summary>The decision has been made; what follows is only the lift.</summary>
    public bool Decided { get; set; }

    public void Add(in PanSample sample)
    {
        if (samples.Count < MaxSamples)
            samples.Add(sample);
        else
            Overflow++;
    }

    /// <summary>The presumed liner under it was a hand's doing: the tare is the bare pan.</summary>
    public void TareIsBarePan() => Tare = Tare?.Bare ?? Tare;
}
