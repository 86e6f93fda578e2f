namespace CaptureAgent.Simulators.Physics.Scales;

/// <summary>A gram scale: takes the force on its pan step by step and shows readings. Starts switched on, zeroed, with an empty pan.</summary>
public sealed class GramScale
{
    private readonly ScaleSpecification specification;
    private readonly SeededRandom random;
    private readonly LowPass filter;
    private readonly StabilityFlag flag;
    private readonly double division;
    private double driftSteady, driftWalk;
    private double zero, tare;
    private bool tareWanted, zeroWanted;
    private double onSince;
    private double nextDue;
    private double offUntil = double.NegativeInfinity;
    private bool awaitsZero;

    public GramScale(ScaleSpecification specification, ulong seed)
    {
        this.specification = specification;
        random = new(seed);
        division = (double)specification.DivisionGrams;
        filter = new(specification.FilterSeconds, specification.FilterOrder);
        flag = new(specification.FlagDivisions * division, specification.FlagSeconds);
        zero = specification.WarmUpGrams;
        nextDue = random.Unit() / specification.SampleHertz;
    }

    public DisplayUnit Unit { get; private set; }

    /// <summary>The tare key: taken when the scale itself finds its value stable.</summary>
    public void PressTare() => tareWanted = true;

    /// <summary>The zero key; clears the tare.</summary>
    public void PressZero() => zeroWanted = true;

    public void SwitchUnit(DisplayUnit unit) => Unit = unit;

    /// <summary>No reading until it is on again; then its tare is forgotten, grams are shown, and what lies on the pan is its zero.</summary>
    public void CutPower(double now, double seconds)
    {
        offUntil = now + seconds + specification.StartSeconds;
        awaitsZero = true;
    }

    /// <summary>Takes the mean force of the step that begins at <paramref name="now"/>; true when a reading falls into the step.</summary>
    public bool Step(double now, double force, out ScaleSample sample)
    {
        sample = default;
        var end = now + SimulatedTime.StepSeconds;
        filter.Step(force);
        Drift();
        var gross = Raw(end) - zero;
        flag.Step(end, gross);
        if (end < offUntil)
        {
            SkipTo(end);
            return false;
        }

        if (awaitsZero)
        {
            Restart(end);
            gross = Raw(end) - zero;
        }

        ServeKeys(ref gross);
        if (specification.TracksZero && flag.IsStable && Math.Abs(gross) <= division / 2)
            zero += Math.Clamp(gross, -Reach, Reach);

        if (nextDue > end)
            return false;
        sample = Show(Math.Max(now, nextDue), gross);
        SkipTo(end);
        return true;
    }

    private double Reach => 0.5 * division * SimulatedTime.StepSeconds;

    private void Drift()
    {
        driftSteady += specification.DriftGramsPerMinute / 60 * SimulatedTime.StepSeconds;
        if (specification.WanderGramsPerRootMinute > 0)
            driftWalk += specification.WanderGramsPerRootMinute * Math.Sqrt(SimulatedTime.StepSeconds / 60) * random.Normal();
    }

    private double Raw(double seconds)
    {
        var warmUp = specification.WarmUpGrams == 0 ? 0 : specification.WarmUpGrams * Math.Exp(-(seconds - onSince) / specification.WarmUpSeconds);
        return (filter.Value * (1 + specification.GainError)) + driftSteady + driftWalk + warmUp;
    }

    private void Restart(double now)
    {
        awaitsZero = false;
        onSince = now;
        (tare, Unit, tareWanted, zeroWanted) = (0, DisplayUnit.Gram, false, false);
        zero = Raw(now);
    }

    private void ServeKeys(ref double gross)
    {
        if (!flag.IsStable)
            return;
        if (zeroWanted)
        {
            zero += gross;
            (gross, tare) = (0, 0);
        }
        else if (tareWanted)
        {
            tare = Math.Abs(gross) < division / 2 ? 0 : gross;
        }

        (zeroWanted, tareWanted) = (false, false);
    }

    // Readings are due on a grid; jitter moves one about its place and never past its neighbour.
    private void SkipTo(double now)
    {
        var period = 1 / specification.SampleHertz;
        while (nextDue <= now)
        {
            var grid = (Math.Floor(nextDue / period) + 1.5) * period;
            var jitter = specification.JitterSeconds > 0 ? Math.Clamp(specification.JitterSeconds * random.Normal(), -0.45 * period, 0.45 * period) : 0;
            nextDue = grid + jitter;
        }
    }

    private ScaleSample Show(double seconds, double gross)
    {
        bool? stable = specification.Flag switch
        {
            FlagConduct.Honest => flag.IsStable,
            FlagConduct.StuckAtStable => true,
            FlagConduct.StuckAtUnstable => false,
            _ => null,
        };
        if (gross > specification.CapacityGrams + (9 * division))
            return new(seconds, ShownRange.Over, 0, Unit, stable, tare != 0);
        if (gross < -0.2 * specification.CapacityGrams)
            return new(seconds, ShownRange.Under, 0, Unit, stable, tare != 0);

        var noise = specification.NoiseGrams > 0 ? specification.NoiseGrams * random.Normal() : 0;
        var shown = Display.Round(gross - tare + noise, Unit, Display.DivisionIn(Unit, specification.DivisionGrams));
        return new(seconds, ShownRange.Within, shown, Unit, stable, tare != 0);
    }
}
