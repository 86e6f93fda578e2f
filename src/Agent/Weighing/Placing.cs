namespace CaptureAgent.Agent.Weighing;

/// <summary>One load, from the moment it comes until it is lifted.</summary>
internal sealed class Placing
{
    /// <summary>Readings kept as evidence: 20 minutes at 10 a second.</summary>
    private const int MaxSamples = 12_000;

    private readonly List<PanSample> samples;
    private readonly List<int> gaps = [];

    public Placing(double seconds, Rest? tare, IEnumerable<PanSample> before)
    {
        Seconds = seconds;
        Tare = tare;
        Zero = tare?.Grams ?? 0;
        samples = [.. before];
    }

    /// <summary>When it came.</summary>
    public double Seconds { get; }

    /// <summary>When it was taken away, as far as can be told, once it was: a lift is noticed later.</summary>
    public double LeftSeconds { get; set; } = double.NaN;

    /// <summary>For how long it lay there, once it was taken away.</summary>
    public double Stay => LeftSeconds - Seconds;

    /// <summary>What lay still before it; null where that is not known.</summary>
    public Rest? Tare { get; private set; }

    /// <summary>The level from which the settler counts, in grams: the tare as it was when the load came.</summary>
    public double Zero { get; init; }

    /// <summary>Root mean square rate of the zero's drift as it was known when the load came, in grams a second.</summary>
    public double DriftPerSecond { get; set; }

    /// <summary>What the settler was told when the load came.</summary>
    public SettleContext Context { get; set; }

    /// <summary>The tare was read while the load before was only just gone.</summary>
    public bool HastyTare { get; init; }

    /// <summary>The scale sent one finished value, the last of the samples.</summary>
    public bool IsFinished { get; init; }

    /// <summary>Whether it is accepted or refused was decided while it lay there.</summary>
    public bool IsDecided { get; private set; }

    /// <summary>What it was found to weigh then, in grams; not a number where that is not known.</summary>
    public double DecidedGrams { get; private set; } = double.NaN;

    /// <summary>The keeper asked for this chick to be weighed again.</summary>
    public bool AskedAgain { get; set; }

    /// <summary>Readings before and during, as evidence.</summary>
    public IReadOnlyList<PanSample> Samples => samples;

    /// <summary>Readings were missed before the samples of these numbers, counted from 0.</summary>
    public IReadOnlyList<int> Gaps => gaps;

    /// <summary>Of the newest sample when the code was known; null while it is not.</summary>
    public double? CodedSeconds { get; set; }

    /// <summary>What the settler was told that this chick should weigh, in grams, after the sample of those seconds.</summary>
    public (double Seconds, double Grams)? Expected { get; set; }

    /// <summary>How the chick moved on earlier mornings, as the settler was told with <see cref="Expected"/>.</summary>
    public MotionHabit Habit { get; set; }

    /// <summary>Of the sample whose value was taken, where it was not the last (a lift moves the readings); negative infinity: no value was known.</summary>
    public double? JudgedSeconds { get; set; }

    /// <summary>The moment that its weight is of: the middle of the stretch that was weighed.</summary>
    public double WeighedSeconds { get; set; }

    /// <summary>Readings that did not fit into the evidence: counted, and the placing refused.</summary>
    public int Overflow { get; set; }

    /// <summary>It has lain there for longer than a bump does.</summary>
    public bool Announced { get; set; }

    /// <summary>It has moved as only an animal does.</summary>
    public bool Animal { get; set; }

    /// <summary>It was no load, but what lay under it moved.</summary>
    public bool IsStir { get; set; }

    public bool LinkLost { get; set; }

    /// <summary>The scale started anew, or zeroed itself, with the load on.</summary>
    public bool Restarted { get; set; }

    /// <summary>The animal was taken out of a tub that came with it and stayed: what the animal weighs is not known.</summary>
    public bool PartLeft { get; set; }

    public bool UnitChanged { get; set; }

    /// <summary>The load was beyond the scale for long enough to be no passing press.</summary>
    public bool Overload { get; set; }

    public bool Underload { get; set; }

    /// <summary>Highest settled-looking level above the tare, for telling a lift from a wriggle; grams.</summary>
    public double Peak { get; set; }

    public void Add(in PanSample sample)
    {
        if (samples.Count < MaxSamples)
            samples.Add(sample);
        else
            Overflow++;
    }

    /// <summary>What the zero may have moved from the tare until a moment, in grams: one standard uncertainty.</summary>
    public double DriftUntil(double seconds) => DriftPerSecond * Math.Max(0, seconds - Seconds);

    public void Decide(double? grams) => (IsDecided, DecidedGrams) = (true, grams ?? double.NaN);

    /// <param name="sample">Number of the sample before which readings were missed.</param>
    public void MarkGap(int sample) => gaps.Add(sample);

    /// <summary>Something lay on the liner before the animal came: so many grams, with their standard uncertainty.</summary>
    public void TareHas(double grams, double uncertainty) =>
        Tare = Tare! with { Grams = Tare.Grams + grams, Laid = grams, Uncertainty = Math.Sqrt(Tare.Uncertainty * Tare.Uncertainty + uncertainty * uncertainty) };

    /// <summary>The presumed liner under it was a hand's doing: the tare is the bare pan.</summary>
    public void TareIsBarePan() => Tare = Tare?.Bare?.Certain ?? Tare;
}
