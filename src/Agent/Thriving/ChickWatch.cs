using CaptureAgent.Agent.Growth;

namespace CaptureAgent.Agent.Thriving;

/// <summary>One chick, followed from morning to morning.</summary>
internal sealed partial class ChickWatch
{
    /// <summary>Two-sided, normal.</summary>
    public const double Interval95 = 1.959964;

    /// <summary>Of a weight whose uncertainty is not known: reading, droppings, a damp towel; a share of the weight.</summary>
    private const double LeastError = 0.003;

    private const int LevelsKept = 14;

    /// <summary>Days of age: until then the weight says little.</summary>
    private const int LastHatchlingDay = 2;

    private const double Possible = 0.03, Likely = 0.2;

    /// <summary>Gain of ln(weight) a day from which on no chick turns to its recession. What was expected before it fell short counts: a failing chick seems to be near its end.</summary>
    public const double EndingRate = 0.02;

    private readonly Tuning tuning;
    private Course? course;
    private Telling? told;

    // The last mornings' levels, oldest first.
    private (DateOnly Day, double Level)[] levels = [];

    public ChickWatch(WatchedChick chick, Tuning tuning)
    {
        Chick = chick;
        Group = chick.Hatched is null ? null : chick.Species is { } species ? "species " + species : chick.Clutch is { } clutch ? "clutch " + clutch : null;
        this.tuning = tuning;
    }

    public WatchedChick Chick { get; }

    public string? Clutch => Chick.Clutch;

    /// <summary>Of whose growth its own tells something: its species, or its clutch where the register names none. Null without a date of hatching: its courses are not those of the others.</summary>
    public string? Group { get; }

    /// <summary>Weights taken in.</summary>
    public int Count { get; private set; }

    /// <summary>The last weight taken in.</summary>
    public MorningWeight? Last { get; private set; }

    /// <summary>The day of the last weight, believed or not.</summary>
    public DateOnly? LastSeen { get; private set; }

    /// <summary>The day up to which time has passed.</summary>
    public DateOnly Day { get; private set; }

    public ShortfallEvidence Shortfall { get; private set; }

    /// <summary>Loss, stall or slow: what the chick falls short by.</summary>
    public string ShortfallKind { get; private set; } = FindingKinds.Slow;

    /// <summary>Growth is over, or nearly: a loss may be the recession of weaning.</summary>
    public bool MayBeOver => Stage >= Stage.Peak || course is { IsOver: > Possible };

    /// <summary>Growth may be over, or have ended before its time: only a loss that no recession explains cannot wait.</summary>
    public bool MayRecede => MayBeOver || Shortfall.ExpectedRate < EndingRate && course is { IsSoonOver: > Likely };

    /// <summary>Where it may recede: what speaks for a loss that no recession explains, as ln of a likelihood ratio.</summary>
    public double SteepLoss { get; private set; }

    public double Level => course?.Level ?? double.NaN;

    public double Rate => course?.Rate ?? double.NaN;

    /// <summary>What the chick may grow by; null without a weight.</summary>
    public Course? Course => course;

    /// <summary>Standard deviation of the last weight about its forecast, in ln(weight); infinite before there was one.</summary>
    public double Deviation { get; private set; } = double.PositiveInfinity;

    /// <summary>The last standardised residual, and its day.</summary>
    public (DateOnly Day, double Z)? LastResidual { get; private set; }

    /// <summary>The weight before was not believed. Two in a row are: a chick that really fails must not be argued away.</summary>
    public bool SetAsideYesterday { get; private set; }

    public int? AgeOn(DateOnly day) => Chick.Hatched is { } hatched && hatched <= day ? day.DayNumber - hatched.DayNumber : null;

    /// <summary>ln(weight) without noise as it was believed some days ago, that many at least; null where that is too long ago or was not yet.</summary>
    public (DateOnly Day, double Level)? LevelBefore(int days)
    {
        foreach (var each in levels)
        {
            if (Day.DayNumber - each.Day.DayNumber is var passed && passed >= days && passed <= LevelsKept)
                return each;
        }

        return null;
    }

    /// <summary>The same as it was believed on a day of late; null where no weight of that day was taken in.</summary>
    public double? LevelOn(DateOnly day)
    {
        foreach (var each in levels)
        {
            if (each.Day == day)
                return each.Level;
        }

        return null;
    }

    public ChickWatch Copy()
    {
        var copy = (ChickWatch)MemberwiseClone();
        copy.course = course?.Copy();
        copy.Lasting = Lasting is { } lasting ? lasting with { Healthy = lasting.Healthy.Copy() } : null;
        return copy;
    }

    /// <summary>Lets the days pass up to this one.</summary>
    /// <param name="kin">What its like say of its course; null: nothing new.</param>
    public void PassTo(DateOnly day, NoiseLevel noise, Kin? kin = null)
    {
        if (course is null)
            return;
        for (; Day < day; Day = Day.AddDays(1))
        {
            course.Pass(kin, tuning, noise);
            Lasting?.Healthy.Pass(null, tuning, noise);
            // What they say is of the first of these days.
            kin = null;
            DaysInStage++;
        }
    }

    /// <summary>The forecast for this morning beside its weight; null for the first weight.</summary>
    public ChickMorning? Compare(MorningWeight weight) =>
        course?.Predict() is { } forecast ? new ChickMorning(this, weight, forecast.Mean, Math.Sqrt(forecast.Variance + ErrorVariance(weight))) : null;

    /// <summary>Predicted ln(grams) for the day passed to, and its standard deviation for a weighing of usual error; null without a weight.</summary>
    public (double Expected, double Deviation)? Forecast() =>
        course?.Predict() is { } forecast ? (forecast.Mean, Math.Sqrt(forecast.Variance + LeastError * LeastError)) : null;

    /// <summary>Takes the first weight in.</summary>
    public void Start(MorningWeight weight, GrowthPriors priors, NoiseLevel noise)
    {
        var grams = (double)weight.Grams;
        Day = weight.Day;
        var species = priors.Of(Chick.Species);
        course = new Course(species, species.Starts(AgeOn(Day), grams), Math.Log(grams), ErrorVariance(weight), noise, tuning);
        Stage = AgeOn(Day) <= LastHatchlingDay ? Stage.Hatchling : Stage.Growing;
        (Last, LastSeen, Count) = (weight, weight.Day, 1);
    }

    /// <summary>Takes the morning in, as far as it can be believed.</summary>
    /// <param name="extraVariance">Doubt about this weight.</param>
    public void Take(ChickMorning morning, double extraVariance, IReferenceGrowth reference)
    {
        SetAsideYesterday = morning.IsSetAside;
        LastSeen = morning.Weight.Day;
        if (morning.IsSetAside)
            return;
        course!.Take(morning.Observed - morning.Common, ErrorVariance(morning.Weight) + extraVariance);
        Shortfall = course.Strongest(Stage >= Stage.Peak ? Weaning.AllowedRate : null);
        ShortfallKind = KindOf(morning);
        SteepLoss = MayRecede ? course.Strongest(Weaning.SteepRate).LogRatio : 0;
        LastResidual = (morning.Weight.Day, morning.Z);
        Deviation = morning.Deviation;
        (Last, Count) = (morning.Weight, Count + 1);
        levels = [.. levels.Length < LevelsKept ? levels : levels[1..], (Day, Level)];
        Move(reference);
    }

    /// <summary>The room's weights are others from now on, by this much in ln(weight), for no reason of the chick's.</summary>
    public void Shift(double by)
    {
        course?.Shift(by);
        PeakLevel += by;
        weanedLevel += by;
        levels = [.. levels.Select(each => (each.Day, each.Level + by))];
        Lasting = Lasting is { } told ? told with { Observed = told.Observed + by } : null;
    }

    /// <summary>By the evidence it cannot be told as usual, this morning, though it may have been told before.</summary>
    public bool IsBeyond { get; private set; }

    /// <summary>How urgent what the chick falls short of is this morning; one of <see cref="Severities"/>.</summary>
    public string Urgency { get; private set; } = Severities.Note;

    /// <summary>What was told and goes on; null where nothing does.</summary>
    public Lasting? Lasting { get; private set; }

    /// <summary>Decides how urgently the morning is told, and remembers it.</summary>
    public void Tell(ChickMorning morning, in Budget budget)
    {
        var observed = morning.Observed - morning.Common;
        if (Lasting is { } before && !morning.IsSetAside)
            Lasting = before.On(Day, observed);
        var telling = Telling.Of(this, budget);
        IsBeyond = telling.Severity != Severities.Note;
        Urgency = telling.IsNews(told) ? telling.Severity : Severities.Note;
        if (Urgency != Severities.Note)
        {
            told = telling;
            if (Lasting is null && MayLast && !morning.IsSetAside)
                Lasting = new Lasting(Day, observed, morning.Weight.Grams, Urgency, course!.Copy(), course.Level, GrowthMayEnd);
        }

        if (Lasting is { Days: > 0, Urgency: var lasting } && (Urgency == Severities.Note || lasting == Severities.Red))
            Urgency = lasting;
        if (Stage == Stage.Weaned && LostSinceWeaned > Weaning.WeanedRed)
            Urgency = Severities.Red;
    }

    // The evidence shares what is missing between a shortfall and a slower course; over some days a chick that weighs what it weighed stands still, whatever its kind.
    private string KindOf(ChickMorning morning)
    {
        const int SureDays = 3;
        var kind = FindingKinds.Of(Shortfall);
        if (kind != FindingKinds.Slow || Shortfall.Days < SureDays || morning.WeightBefore(Shortfall.Days) is not { } before)
            return kind;
        var rate = (morning.Observed - morning.Common - Math.Log((double)before.Grams)) / (Day.DayNumber - before.Day.DayNumber);
        return FindingKinds.Of(rate, Shortfall.ExpectedRate) == FindingKinds.Slow ? kind : FindingKinds.Stall;
    }

    // Of a chick that had yet to grow.
    private bool MayLast => Stage == Stage.Growing && !MayRecede && Shortfall.ExpectedRate >= EndingRate;

    // Of a kind that no reference knows: unless parrots of its age and weight are not half grown.
    private bool GrowthMayEnd => !course!.Species.IsKnown && !(AgeOn(Day) is { } age && Unlisted.PartOfFinal(age, Math.Exp(Level)) < 0.5);

    private static double ErrorVariance(MorningWeight weight)
    {
        var error = (double)(weight.UncertaintyGrams ?? 0) / (double)weight.Grams;
        return error * error + LeastError * LeastError;
    }
}
