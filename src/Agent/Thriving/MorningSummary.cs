using CaptureAgent.Agent.Growth;

namespace CaptureAgent.Agent.Thriving;

/// <summary>What the nursery looks like on one day, judged on what was recorded up to and including it.</summary>
/// <param name="Findings">Reds first.</param>
/// <param name="NotWeighed">Codes of the chicks without a weight of the day.</param>
/// <param name="Chicks">Every chick of the room, in the order of codes.</param>
/// <param name="Seen">What keepers saw that day, oldest first; under codes that are not of the room too.</param>
/// <param name="Doubts">What the register says and the weights make doubtful.</param>
internal sealed record MorningSummary(
    DateOnly Day, IReadOnlyList<GrowthFinding> Findings, IReadOnlyList<string> NotWeighed, IReadOnlyList<ChickDay> Chicks, IReadOnlyList<Sighting> Seen, IReadOnlyList<RegisterDoubt> Doubts)
{
    public static MorningSummary Of(MorningRecord record, IReferenceGrowth reference) =>
        Of(record.Room.Chicks, reference, record.Day, record.Seen) with { Doubts = record.Room.Doubts };

    /// <param name="seen">What keepers saw that day and the day before, oldest first.</param>
    public static MorningSummary Of(IReadOnlyList<WatchedChick> chicks, IReferenceGrowth reference, DateOnly day, IReadOnlyList<Sighting>? seen = null)
    {
        var before = RoomReview.Of(chicks, reference, day.AddDays(-1), Tuning.Usual);
        return Of(before.Preview(day, chicks.SelectMany(chick => chick.Weights.Where(weight => weight.Day == day).Select(weight => (chick.Code, weight)))), seen ?? []);
    }

    /// <summary>Kinds of what was seen of a chick, each once.</summary>
    public IEnumerable<string> SeenOf(string chick) => Seen.Where(seen => seen.Chick == chick).Select(seen => seen.Kind).Distinct();

    /// <summary>Codes that something was seen under and that are not of the room.</summary>
    public IEnumerable<string> SeenElsewhere() => Seen.Select(seen => seen.Chick).Except(Chicks.Select(chick => chick.Chick)).Order(StringComparer.Ordinal);

    private static MorningSummary Of(MorningReview morning, IReadOnlyList<Sighting> seen)
    {
        var here = morning.Watches.Where(watch => Absences.IsHere(watch, morning.Day)).OrderBy(watch => watch.Chick.Code, StringComparer.Ordinal).ToList();
        var chicks = here.Select(watch => ChickDay.Of(watch, morning)).ToList();
        return new MorningSummary(
            morning.Day, Thriving.Findings.InOrder(Thriving.Findings.Of(morning).Concat(Told(morning.Day, seen, chicks))),
            [.. here.Where(watch => watch.LastSeen != morning.Day).Select(watch => watch.Chick.Code)],
            chicks, [.. seen.Where(each => each.Day == morning.Day)], []);
    }

    // What was seen cannot wait for a weight: where there is one, or was to be one, it stands beside.
    private static IEnumerable<GrowthFinding> Told(DateOnly day, IReadOnlyList<Sighting> seen, IReadOnlyList<ChickDay> chicks)
    {
        var byCode = chicks.ToDictionary(chick => chick.Chick, StringComparer.Ordinal);
        var now = Thriving.Findings.Seen(seen.Where(each => each.Day == day), each => byCode.GetValueOrDefault(each.Chick)?.Grams);
        foreach (var finding in now.Concat(Thriving.Findings.SeenBefore(day, seen)))
        {
            yield return byCode.GetValueOrDefault(finding.Chick!) is { } chick
                ? finding with { Grams = chick.Grams, ExpectedGrams = chick.ExpectedGrams, LowGrams = chick.LowGrams, HighGrams = chick.HighGrams }
                : finding;
        }
    }
}

/// <summary>One chick on that day.</summary>
/// <param name="Stage">Null for a chick that was never weighed and may be no hatchling any more.</param>
/// <param name="GainPercent">Since the weight before, however long ago.</param>
/// <param name="RatePercentPerDay">The same, per day that passed.</param>
/// <param name="ExpectedGrams">Predicted before the day's weight, with the 95 % interval.</param>
internal sealed record ChickDay(
    string Chick, int? AgeDays, Stage? Stage, double? Grams, double? GainPercent, double? RatePercentPerDay, double? ExpectedGrams, double? LowGrams, double? HighGrams)
{
    public static ChickDay Of(ChickWatch watch, MorningReview morning)
    {
        var weights = watch.Chick.Weights;
        var at = LastUpTo(weights, morning.Day);
        var today = at >= 0 && weights[at].Day == morning.Day ? weights[at--] : (MorningWeight?)null;
        double? gain = null, rate = null;
        if (today is { } now && at >= 0)
        {
            var ratio = (double)(now.Grams / weights[at].Grams);
            gain = 100 * (ratio - 1);
            rate = 100 * (Math.Pow(ratio, 1.0 / (now.Day.DayNumber - weights[at].Day.DayNumber)) - 1);
        }

        var forecast = morning.Forecasts[watch.Chick.Code];
        return new ChickDay(
            watch.Chick.Code, watch.AgeOn(morning.Day), watch.StageOn(morning.Day), (double?)today?.Grams, gain, rate,
            forecast is { } known ? Math.Exp(known.Expected) : null,
            forecast is { } low ? Math.Exp(low.Expected - ChickWatch.Interval95 * low.Deviation) : null,
            forecast is { } high ? Math.Exp(high.Expected + ChickWatch.Interval95 * high.Deviation) : null);
    }

    private static int LastUpTo(IReadOnlyList<MorningWeight> weights, DateOnly day)
    {
        var i = weights.Count - 1;
        while (i >= 0 && weights[i].Day > day)
            i--;
        return i;
    }
}
