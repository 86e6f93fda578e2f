using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Agent.Weighing;

/// <summary>What a reading changed on the pan.</summary>
[Flags]
internal enum PanChange
{
    None = 0,

    /// <summary><see cref="Pan.Rest"/> is a new tare.</summary>
    Tared = 1,

    /// <summary>A load has come and stays: <see cref="Pan.Load"/>.</summary>
    Placed = 2,

    /// <summary>The load is gone: <see cref="Pan.Lifted"/>.</summary>
    Lifted = 4,

    /// <summary>What was only presumed to be the liner was taken away: <see cref="Pan.Gone"/>.</summary>
    Gone = 8,
}

/// <summary>Follows what lies on one scale's pan: bare, liner, load, lift. Pure: time comes with the readings.</summary>
/// <remarks>
/// The first load on a bare pan that lies still is presumed to be the liner; only what moves like an animal is a load there at once.
/// A rest level that creeps is followed, for a scale's zero drifts; a load is a step (<see cref="ZeroTracking"/>).
/// </remarks>
internal sealed partial class Pan(Func<ISettler> newSettler)
{
    /// <summary>A heavier thing that lies still at start is no liner (a tub weighs 60 to 250 g: common practice, no source).</summary>
    public const double HeaviestLiner = 300;

    /// <summary>A lighter thing is no liner but a crumb (a paper towel weighs 5 to 12 g: common practice, no source).</summary>
    private const double LightestLiner = 3;

    private const double StillSeconds = 1.0;
    private const double ShortStillSeconds = 0.5;
    private const double LinerStillSeconds = 0.7;

    /// <summary>A liner that is being arranged swings for a while; what still moves then is an animal.</summary>
    private const double FoundSeconds = 4;

    /// <summary>No liner takes so long to come to rest.</summary>
    private const double RestlessSeconds = 10;

    public const double LiftSeconds = 0.5;
    private const double BumpSeconds = 0.4;
    private const double RangeSeconds = 2.0;

    /// <summary>A level is not fitted more often than this.</summary>
    private const double FitSeconds = 0.15;

    /// <summary>The newest third of a second of a tare is left out: the chick may be touching down.</summary>
    private const double TouchSeconds = 0.35;

    /// <summary>A bare pan that strays by more, in grams (standard deviation), is touched: a hum that is stronger hides liners.</summary>
    private const double MostUnrest = 0.4;

    /// <summary>Standard deviation over the median distance: 1.48 of a normal distribution, 1 of a tone.</summary>
    private const double UnrestShare = 1.2;

    /// <summary>Of so many divisions at least a rise shows the scale's filter: of fewer, rounding ends it early.</summary>
    private const double FewestDivisions = 16;

    private readonly ISettler settler = newSettler();
    private readonly Recent recent = new() { OpeningEnds = MostUnrest };
    private readonly ZeroTracking tracking = new();
    private readonly ZeroDrift drift = new();
    private readonly Settling settling = new();
    private readonly Sway sway = new();
    private readonly Queue<PanSample> history = [];
    private double bare = double.NaN, announcedTare = double.NaN, stillDeviation, notBefore = double.NegativeInfinity;
    private double lowSince = double.NaN, rangeSince = double.NaN, movingSince = double.NaN, lastGrams;
    private double fastestRise = double.NaN;
    private int onBarePan;
    private Rest? before;
    private double foundAt = double.NaN, foundSince, foundNow = double.NaN, foundBefore = double.NaN;
    private double fitted = double.NegativeInfinity;
    private double lateAt = double.NegativeInfinity, leftAt;
    private bool suspect, netMark, isSettling, bareSinceLift, unitSwitched, restIsSwitched, keyTared;

    /// <summary>Scale interval d in grams.</summary>
    public double Division { get; set; } = 0.1;

    /// <summary>The tare now; null while the pan is not at rest and nothing is known to lie under the load.</summary>
    public Rest? Rest { get; private set; }

    /// <summary>The load on the pan, if there is one.</summary>
    public Placing? Load { get; private set; }

    /// <summary>The load that was lifted last.</summary>
    public Placing? Lifted { get; private set; }

    /// <summary>The tare now was read in stable equilibrium.</summary>
    public bool TareIsEstablished => Rest is not null && tracking.Established;

    public ISettler Settler => settler;

    /// <summary>The load's readings are as low as without it: a lift, if it lasts.</summary>
    public bool MayBeLifting => !double.IsNaN(lowSince);

    /// <summary>Of the newest reading.</summary>
    public double LastSeconds => recent.LastSeconds;

    /// <summary>Liners on which something was weighed lately, in grams above the bare pan; newest last.</summary>
    public List<double> Liners { get; } = [];

    /// <summary>What differs by less is the same level; grams.</summary>
    public double Least => Math.Max(3 * Division, Math.Max(0.5, 5 * stillDeviation));

    /// <summary>What lies on the bare pan and weighs more is a liner, where it came at once; grams. On a coarse scale a paper towel is two or three divisions, and no creeping zero.</summary>
    private double LeastLiner => Math.Min(Least, Math.Max(Math.Max(LightestLiner, 1.5 * Division), 4 * stillDeviation));

    /// <summary>Chicks are laid on the bare pan here: several were weighed so, and none on a liner.</summary>
    public bool IsWithoutLiners => onBarePan > 1 && Liners.Count == 0;

    private double BareLevel => double.IsNaN(bare) ? 0 : bare;

    private double StillRange => Math.Max(2 * Division, 5 * stillDeviation) + 1e-9;

    /// <summary>How restless this scale was at rest on earlier days: standard deviation in grams, until today's readings tell.</summary>
    public void ExpectNoise(double stillDeviation) => this.stillDeviation = stillDeviation;

    public PanChange Add(in PanSample sample)
    {
        history.Enqueue(sample);
        while (history.Count > 1 && sample.Seconds - history.Peek().Seconds > 6)
            history.Dequeue();
        netMark = sample.Mark == WeightMark.Net;
        if (sample.IsLate)
            lateAt = sample.Seconds;
        Load?.Add(sample);
        if (sample.Range != LoadRange.Within)
            return OutOfRange(sample);

        rangeSince = double.NaN;
        var grams = (double)sample.Grams;
        if (recent.Count > 0 && sample.Seconds - recent.LastSeconds > 2.5)
            Missed(sample.Seconds);
        recent.Add(sample.Seconds, grams);
        lastGrams = grams;
        if (Load is null)
            WatchKey();
        WatchBarePan();
        WatchDoubt(sample);
        return Load is not null ? InLoad(sample.Seconds, grams) : Rest is not null ? InRest(sample.Seconds, grams) : InUnknown(sample.Seconds);
    }

    /// <summary>The link was lost: whatever lies there now must be proved again.</summary>
    public void LinkLost()
    {
        recent.Clear();
        lowSince = double.NaN;
        if (Load is { } load)
        {
            load.LinkLost = true;
            load.MarkGap(load.Samples.Count);
            settler.Gap();
            return;
        }

        followsDoubt = false;
        before = Rest ?? before;
        Rest = null;
    }

    /// <summary>The scale shows another unit: levels must be read anew.</summary>
    public void UnitChanged()
    {
        if (Load is { } load)
        {
            load.UnitChanged = true;
            return;
        }

        unitSwitched = true;
        if (doubted is { } presumed)
            presumed.UnitChanged = true;
        recent.Clear();
        followsDoubt = false;
        before = Rest ?? before;
        Rest = null;
    }

    /// <summary>The keeper says that what lies on the pan now is the tare; false while nothing can be read.</summary>
    public bool TareNow()
    {
        if (!recent.TryWindow(ShortStillSeconds, double.NegativeInfinity, out var window))
            return false;
        EndLoad();
        EndDoubt();
        SetRest(window.Median, window, lined: true);
        Rest = Rest!.Certain;
        announcedTare = Rest.Grams;
        return true;
    }

    /// <summary>What was presumed to be the liner is a load after all: the bare pan under it was the tare.</summary>
    /// <param name="tare">What lay under it: <see cref="Rest.Bare"/>, or what lay under that.</param>
    public Placing PresumedLinerIsLoad(Rest tare)
    {
        var isDoubted = ReferenceEquals(tare, Rest!.Bare) && followsDoubt;
        var isSwitched = doubted?.UnitChanged == true;
        tare = tare.Certain;
        if (isDoubted && doubted is { } known)
            Load = known;
        else
            Replay(Rest.Since, tare, history);
        (Load!.Announced, Load.Animal) = (true, true);
        Load.UnitChanged |= isSwitched;
        EndDoubt();
        lowSince = double.NaN;
        before = tare;
        Rest = null;
        return Load;
    }

    // The load is weighed anew, from what was read since it came.
    private void Replay(double since, Rest tare, IEnumerable<PanSample> samples)
    {
        Load = new Placing(since, tare, samples);
        Begin(Load, since, tare);
        foreach (var sample in Load.Samples)
        {
            if (sample.Seconds >= since && sample.Range == LoadRange.Within)
                settler.Add(sample.Seconds, (double)sample.Grams - tare.Grams);
        }
    }

    /// <summary>Something was weighed on this liner: only use tells a liner from a chick that lies still.</summary>
    public void Used(Rest liner)
    {
        EndDoubt();
        before = before?.Certain;
        onBarePan += liner.Lined ? 0 : 1;
        if (liner.Lined)
            taken = null;
        if (!liner.Lined || double.IsNaN(bare) || liner.Grams - bare <= Least)
            return;
        Liners.Add(liner.Grams - bare);
        if (Liners.Count > 8)
            Liners.RemoveAt(0);
    }

    /// <summary>Since the last lift the pan has been without the liner that lay there before: what lies there now is another.</summary>
    public bool LinerLeft(Rest before) =>
        before.Grams - bare > Least ? bareSinceLift : Rest is { } rest && rest.Grams < before.Grams - Least;

    // Long enough to be no swing of a pan that is suddenly free.
    private void WatchBarePan() =>
        bareSinceLift |= Load is null && recent.TryWindow(0.3, notBefore, out var window) && window.Median - bare <= Least && window.Range <= 2 * StillRange;

    /// <summary>What lay on the pan before and after a weighing, where nothing slipped: so much this scale drifts.</summary>
    public void LearnDrift(TareComparison tares) => drift.Learn(tares);

    // The load keeps what its settler was told, so that it can be judged again.
    private void Begin(Placing load, double seconds, Rest? tare)
    {
        load.DriftPerSecond = drift.PerSecond(Division);
        settler.Begin(load.Context = Context(seconds, tare));
    }

    private SettleContext Context(double seconds, Rest? tare) =>
        new(seconds, Division, stillDeviation, tare?.Uncertainty ?? 0, fastestRise);

    // A second or more without readings, while the link stood: the same doubt as a lost link, but nobody can have restarted the scale unseen.
    private void Missed(double seconds)
    {
        recent.Clear();
        lowSince = double.NaN;
        notBefore = seconds;
        followsDoubt = false;
        if (Load is not { } load)
            return;
        load.MarkGap(load.Samples.Count - 1);
        settler.Gap();
    }

    private PanChange OutOfRange(in PanSample sample)
    {
        if (double.IsNaN(rangeSince))
            rangeSince = sample.Seconds;
        var change = PanChange.None;
        if (sample.Range == LoadRange.Overload)
        {
            if (Load is null)
                Open(sample.Seconds);
            change = Announce(Load!, sample.Seconds);
        }

        if (Load is { } load && sample.Seconds - rangeSince >= RangeSeconds)
        {
            load.Overload |= sample.Range == LoadRange.Overload;
            load.Underload |= sample.Range == LoadRange.Underload;
        }

        return change;
    }

    private void Open(double seconds)
    {
        if (Rest is not null)
            MindSlip();
        Load = new Placing(seconds, Rest, history);
        followsDoubt = false;
        lowSince = double.NaN;
        movingSince = seconds;
        before = Rest ?? before;
        Begin(Load, seconds, Rest);
        Rest = null;
    }

    private void EndLoad()
    {
        Load = null;
        notBefore = double.NegativeInfinity;
    }
}
