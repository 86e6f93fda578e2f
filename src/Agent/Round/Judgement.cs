using CaptureAgent.Agent.Feeding;
using CaptureAgent.Agent.Growth;

namespace CaptureAgent.Agent.Round;

/// <summary>What a settled weight means for this chick today.</summary>
/// <param name="Reasons">Empty: accepted.</param>
/// <param name="Fits">Chick of the register that the weight would fit instead.</param>
/// <param name="Replaces">Today's weight that this one takes the place of.</param>
/// <param name="Look">Something a keeper should look at, in words.</param>
/// <param name="Crop">What speaks for food in the crop, and what against it.</param>
/// <param name="TooGood">The weight alone says that the crop is not empty: what a keeper should know, in words.</param>
/// <param name="Confirms">It agrees with today's weight, a few minutes later and unfed.</param>
internal sealed record Judged(
    IReadOnlyList<string> Reasons, string? Remedy, int? AgeDays, decimal? GainGrams,
    string? Fits = null, Guid? Replaces = null, string? Look = null, CropEvidence? Crop = null, string? TooGood = null, bool Confirms = false);

/// <summary>Who may have which weight, when: the before-feed rule, one morning weight a day, and weights that cannot be this chick's.</summary>
internal sealed class Judgement(Ledger ledger, NurseryDay days, EmptyingGap emptying, IExpectedWeight expectedWeight)
{
    private readonly Forecasts forecasts = new(ledger);

    /// <summary>A weight this much above the morning's was taken with food in the crop.</summary>
    private const decimal FedRatio = 1.03m;

    /// <summary>Another chick is named where the weight is this many times likelier as its own.</summary>
    private const double NamedRatio = 20;

    /// <summary>An accepted weight that another chick's forecast fits so much better is told.</summary>
    private const double DoubtedRatio = 1000;

    private static readonly TimeSpan ConfirmationTime = TimeSpan.FromMinutes(10);

    /// <param name="mayReplace">The keeper asked for this chick to be weighed again.</param>
    public Judged Judge(string code, decimal grams, decimal uncertainty, DateTimeOffset at, bool mayReplace)
    {
        var day = days.Of(at);
        var chick = ledger.Find(code);
        if (chick is null)
            return Reject(Reasons.UnknownChick, null, null);
        var age = AgeDays(code, day);
        if (chick.Left is { } left && left <= day)
        {
            return new Judged([Reasons.UnknownChick], $"The register says that {code} left on {left:yyyy-MM-dd}: check the code, or mend the register.", age, null);
        }

        var gain = Gain(code, day, grams);
        List<string> reasons = [];
        string? look = null;
        Guid? replaces = null;
        var quiet = false;
        var lastFeed = ledger.LastFeed(code);
        if (ledger.MorningWeight(code, day) is { } morning)
        {
            var fed = lastFeed is { } feed && (morning.At is { } weighed ? feed.At >= weighed : feed.Day == day);
            if (mayReplace && !fed)
            {
                replaces = morning.Id;
            }
            else
            {
                var above = grams >= FedRatio * morning.Grams;
                if (fed || above)
                    reasons.Add(Reasons.AfterFeed);
                reasons.Add(Reasons.AlreadyWeighed);
                if (!fed && morning.At is { } then && at - then <= ConfirmationTime)
                    (quiet, look) = Confirm(code, morning, grams, uncertainty);
            }
        }

        var crop = CropOf(code, day, age, grams, uncertainty, at);
        string? remedy = null, tooGood = null;
        if (reasons.Count == 0 && lastFeed is { } last && at >= last.At && at - last.At < emptying.For(age))
            reasons.Add(Reasons.AfterFeed);
        else if (reasons.Count == 0 && replaces is null)
            (remedy, tooGood) = LookIntoCrop(code, crop, mayReplace, reasons);
        BetterFit? fits = null;
        var range = RangeOf(code, day, age);
        if (!quiet && range is { } known && !known.Holds((double)grams, (double)uncertainty))
        {
            reasons.Add(Reasons.Implausible);
            fits = BestFit(code, (double)grams, day);
        }

        // No crop is so full: whose weight it is far likelier is likelier the one that lies there.
        var likelier = reasons.Count == 0 && BestFit(code, (double)grams, day) is { Ratio: >= DoubtedRatio } other ? other : null;
        if (likelier is not null && forecasts.Of(code, day) is { } own && (double)grams > PlausibleRange.FullCrop * own.Grams)
        {
            reasons.Add(Reasons.Implausible);
            fits = likelier;
        }

        if (reasons.Count > 0)
            replaces = null;
        if (reasons.Contains(Reasons.Implausible))
            (remedy, tooGood) = (null, null);
        else if (likelier is not null)
            look = $"{code}: {grams:0.0} g is {likelier.Times} likelier as the weight of {likelier.Chick}, who has none today. Is it {code}? If not, scan the re-weigh card and weigh {code} again.";
        return new Judged(
            reasons, remedy ?? Remedy(code, reasons, quiet, fits, range), age, gain, fits?.Chick, replaces, look, crop, tooGood, quiet);
    }

    public int? AgeDays(string code, DateOnly day) =>
        ledger.Find(code)?.Hatched is { } hatched && hatched <= day ? day.DayNumber - hatched.DayNumber : null;

    /// <summary>The weights the chick can have on the day; null where nothing is known of it.</summary>
    public PlausibleRange? RangeOf(string code, DateOnly day, int? age) =>
        FromHistory(code, day, age) ?? (age is { } days ? ReferenceCurves.At(ledger.Find(code)?.Species, days) : null);

    /// <summary>True when the chick has weights of its own and this one is among those it can have.</summary>
    public bool? FitsHistory(string code, double grams, DateTimeOffset at)
    {
        var day = days.Of(at);
        return FromHistory(code, day, AgeDays(code, day))?.Holds(grams, 0);
    }

    /// <summary>True when this weight is one that the chick can have by its own weights or, without any, by its species and age; null where nothing is known.</summary>
    public bool? Fits(string code, double grams, DateTimeOffset at)
    {
        var day = days.Of(at);
        return RangeOf(code, day, AgeDays(code, day))?.Holds(grams, 0);
    }

    /// <summary>What the chick should weigh, in grams; null where nothing is known, and once it was weighed today: then it may have been fed.</summary>
    public double? Expected(string code, DateTimeOffset at)
    {
        var day = days.Of(at);
        return ledger.MorningWeight(code, day) is not null ? null
            : FromHistory(code, day, AgeDays(code, day))?.Likely;
    }

    public static Judged Reject(string reason, int? age, decimal? gain) => new([reason], Reasons.RemedyFor(reason), age, gain);

    public decimal? Gain(string code, DateOnly day, decimal grams)
    {
        var known = ledger.WeightsOf(code);
        for (var i = known.Count - 1; i >= 0; i--)
        {
            if (known[i].Day < day)
                return grams - known[i].Grams;
        }

        return null;
    }

    private static (bool Agrees, string? Look) Confirm(string code, Weight morning, decimal grams, decimal uncertainty)
    {
        var before = (double)(morning.UncertaintyGrams ?? uncertainty);
        var allowed = 2 * Math.Sqrt(before * before + (double)(uncertainty * uncertainty));
        return Math.Abs((double)(grams - morning.Grams)) <= allowed
            ? (true, null)
            : (false, $"{code}: {morning.Grams:0.0} g a few minutes ago and {grams:0.0} g now, and not fed between. Look at the liner and the scale; scan the re-weigh card to take a third.");
    }

    private CropEvidence CropOf(string code, DateOnly day, int? age, decimal grams, decimal uncertainty, DateTimeOffset at)
    {
        var feeds = ledger.FeedsOf(code);
        var gap = emptying.For(age);
        var last = ledger.LastFeed(code);
        var clock = new CropClock(
            last is { } feed && feed.At <= at ? at - feed.At : null, feeds.Count(one => one.Day == day && one.At <= at), gap, last?.IntakeGrams,
            ledger.SeenFullAt(code) is { } seen && at >= seen && at - seen < gap);
        return CropJudge.Judge(clock, grams, (double)(uncertainty / grams), age, expectedWeight.For(ledger.WeightsOf(code), day, age, ledger.Find(code)?.Species));
    }

    // The first weight of a day, and no feed on record: the keeper's eye, or a weight that only food explains, speaks against it.
    private static (string? Remedy, string? TooGood) LookIntoCrop(string code, CropEvidence crop, bool keeperInsists, List<string> reasons)
    {
        if (!keeperInsists && crop.Basis == "keeper")
        {
            reasons.Add(Reasons.AfterFeed);
            return ("A keeper saw this crop full: do not feed on a full crop; ask an avian veterinarian today. Weigh the chick when the crop is empty.", null);
        }

        if (!CropJudge.IsStrong(crop))
            return (null, null);
        var found = FormattableString.Invariant(
            $"{code} is {crop.ExcessPercent:0.0} % heavier than it should be with an empty crop ({crop.ExpectedGrams:0.0} g), and no feed is on record.");
        if (keeperInsists)
            return (null, $"{found} It is in the growth record at the keeper's word. Food that stays in the crop looks like growth: if the crop is not empty by the next feed, ask an avian veterinarian today.");
        reasons.Add(Reasons.AfterFeed);
        return ($"{found} If it was fed, weigh it tomorrow before its first feed. If not, look at the crop: food in it, do not feed, ask an avian veterinarian today; empty, scan the re-weigh card and weigh it again.",
            $"{found} Fed and not written down, or a crop that has not emptied? Look at the crop; if it is not empty, ask an avian veterinarian today.");
    }

    private PlausibleRange? FromHistory(string code, DateOnly day, int? age)
    {
        var weights = ledger.WeightsOf(code);
        if (PlausibleRange.FromHistory(weights, day, age) is not { } range)
            return null;
        return ledger.MorningWeight(code, day) is null && forecasts.Of(code, day) is { Weights: >= 3 } forecast ? range.Foreseen(forecast.Grams, forecast.Deviation) : range;
    }

    // The chick without a weight of today whose forecast the weight fits best, if it fits it well and far better than this chick's own.
    private BetterFit? BestFit(string code, double grams, DateOnly day)
    {
        var own = forecasts.Of(code, day);
        if (own is { } likely && Math.Abs(likely.ZOf(grams)) < 2.5)
            return null;
        BetterFit? best = null;
        foreach (var other in ledger.Chicks)
        {
            if (other.Code == code || other.Left is { } left && left <= day || ledger.MorningWeight(other.Code, day) is not null)
                continue;
            if (forecasts.Of(other.Code, day) is not { } forecast || Math.Abs(forecast.ZOf(grams)) > 2.5)
                continue;
            var ratio = own is { } mine ? Math.Exp(Math.Min(forecast.LogLikelihood(grams) - mine.LogLikelihood(grams), 30)) : NamedRatio;
            if (ratio >= Math.Max(NamedRatio, best?.Ratio ?? 0))
                best = new BetterFit(other.Code, ratio);
        }

        return best;
    }

    private static string? Remedy(string code, List<string> reasons, bool quiet, BetterFit? fits, PlausibleRange? range)
    {
        if (reasons.Count == 0)
            return null;
        if (quiet)
            return "Agrees with today's weight: nothing to do.";
        if (!reasons.Contains(Reasons.Implausible))
            return Reasons.RemedyFor(reasons[0]);
        var expected = range is { } known ? $"{code} can weigh {known.Low:0.0} to {known.High:0.0} g today. " : "";
        return fits is null
            ? expected + Reasons.RemedyFor(Reasons.Implausible)
            : $"{expected}This weight would fit {fits.Chick}: check the code, then weigh again.";
    }

    /// <param name="Ratio">How many times likelier the weight is as this chick's.</param>
    private sealed record BetterFit(string Chick, double Ratio)
    {
        public string Times => Ratio < 1e6 ? FormattableString.Invariant($"{Ratio:0} times") : "over a million times";
    }
}
