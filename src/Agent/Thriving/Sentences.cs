using System.Globalization;

namespace CaptureAgent.Agent.Thriving;

/// <summary>The findings in words: what was seen, against what, and the question to ask next. Never a diagnosis.</summary>
internal static class Sentences
{
    private const string Vet = "If it looks ill or the crop stands: avian veterinarian, today.";

    public static GrowthFinding Shortfall(ChickMorning each, in ShortfallEvidence evidence, string kind, string severity, bool matesAreFine)
    {
        var what = Course(each, evidence.Days, evidence.ExpectedRate, kind);
        var question = kind == FindingKinds.Slow
            ? "Is the crop emptying, is it warm enough, did it take all its feeds?"
            : "Was the crop empty this morning, and did it take its last feed?";
        return About(each, kind, severity, $"{what}: {Compared(each)}{Mates(matesAreFine)} {question} {Vet}");
    }

    public static GrowthFinding Shortfall(ChickMorning each, in Lasting lasting, string severity, bool matesAreFine) => About(
        each, lasting.Kind, severity,
        $"still {Gained(lasting.Gained, lasting.Days, lasting.ExpectedRate)} {Since(lasting.Days)}: {Grams((double)lasting.Grams)} then, {WasItsCourse(lasting.ExpectedRate)}; {Compared(each)}{Mates(matesAreFine)} Is the crop emptying, does it take its feeds? {Vet}");

    public static GrowthFinding BehindClutch(ChickMorning each, in ShortfallEvidence evidence) => About(
        each, FindingKinds.BehindClutch, Severities.Note,
        $"falls behind its clutch mates, who gain as they should: it {Course(each, evidence.Days, evidence.ExpectedRate, each.Watch.ShortfallKind)}; {Compared(each)} Is it pushed from the food, or colder than the others?");

    public static GrowthFinding Crossing(ChickMorning each, in Crossing crossing, string severity) => About(
        each, FindingKinds.Crossing, severity, FormattableString.Invariant(
            $"falls through the centiles of this nursery's own {crossing.Others} other chicks of its species: from the {Centile(crossing.CentileBefore)} to the {Centile(crossing.CentileNow)} in {crossing.Days} days. {Compared(each)} Does it get all its feeds, is it warm enough, is it pushed aside? {Vet}"));

    public static GrowthFinding TooGood(ChickMorning each, string severity) => About(
        each, FindingKinds.TooGood, severity,
        $"weighs more than growth explains: {Compared(each)} Is the crop empty? Feel it before the next feed; do not feed on a full crop, and a crop that has not emptied overnight goes to an avian veterinarian, today.");

    public static GrowthFinding Implausible(ChickMorning each, string? meant) => About(
        each, FindingKinds.Implausible, Severities.Look,
        $"can hardly have this weight: {Compared(each)} {(meant is null ? "Right chick, right unit?" : $"As {meant}.")} Check what was written, and weigh again.");

    public static GrowthFinding Swapped(ChickMorning each, ChickMorning other) => About(
        each, FindingKinds.Swapped, Severities.Look,
        $"and {other.Watch.Chick.Code} seem to have each other's weight: {Compared(each)} {other.Watch.Chick.Code} has {Grams((double)other.Weight.Grams)} and should have {Grams(other.ExpectedGrams)}. Check their rings, then weigh both again.");

    public static GrowthFinding RoomShift(MorningReview morning) => new(
        null, morning.Day, FindingKinds.RoomShift, Severities.Look,
        FormattableString.Invariant($"The whole room is {Math.Abs(100 * morning.Room.Shift):0.0} % {(morning.Room.Shift > 0 ? "heavier" : "lighter")} than expected ({morning.Room.Chicks} chicks, give or take {100 * morning.Room.Error:0.0} %): no single chick is blamed. Check the scale with its known mass; then ask what was different: food, time of the round, the brooders?"));

    public static GrowthFinding WeaningLoss(ChickMorning each)
    {
        var watch = each.Watch;
        var part = watch.Lost < Weaning.Told ? null : FormattableString.Invariant($"has lost {100 * watch.Lost:0} % of its peak weight, ");
        var still = watch.Urgency == Severities.Note ? "still " : null;
        return About(each, FindingKinds.WeaningLoss, watch.Urgency, watch.IsBeyond
            ? $"{part ?? "loses weight "}{still}faster or deeper than is usual at weaning ({Percent(watch.Shortfall.Rate)} a day of late): {Compared(each)} Does it really eat by itself? Put a feed back, and ask an avian veterinarian if the loss goes on."
            : $"{part}as is usual at weaning. Does it eat by itself?", isUsual: !watch.IsBeyond);
    }

    public static GrowthFinding LossOfWeaned(ChickMorning each) => About(
        each, FindingKinds.Loss, each.Watch.Urgency, FormattableString.Invariant(
            $"keeps its weight no longer: it has lost {100 * each.Watch.LostSinceWeaned:0} % of the most it has weighed since it was weaned. {Compared(each)} Does it eat by itself, is it pushed from the food? Put a feed back. {Vet}"));

    public static GrowthFinding WeaningDoubted(ChickMorning each, DateOnly since, string severity) => About(
        each, FindingKinds.WeaningDue, severity, FormattableString.Invariant($"{WeaningDoubt} (card of {since:yyyy-MM-dd})"));

    /// <summary>Follows the chick's code.</summary>
    public const string WeaningDoubt = "is being weaned, a card said, but its weight is not that of a chick near its peak: it is watched as a growing chick. Was the card meant for this chick? If not, take it back.";

    public static GrowthFinding WeaningDue(ChickMorning each) => About(
        each, FindingKinds.WeaningDue, Severities.Note, $"has reached its peak and hardly gains: {Compared(each)} Is food offered that it can eat by itself? Scan the weaning card when it is weaned from the hand.", isUsual: true);

    /// <summary>What is said of several chicks at once, where it is usual.</summary>
    public static string Usual(string kind, IReadOnlyList<string> chicks) => $"{chicks.Count} chicks {(kind == FindingKinds.WeaningDue
        ? $"have reached their peak and hardly gain: {string.Join(", ", chicks)}. Is food offered that they can eat by themselves? Scan the weaning card of each when it is weaned from the hand."
        : $"have lost some of their peak weight, as is usual at weaning: {string.Join(", ", chicks)}. Do they eat by themselves?")}";

    public static GrowthFinding NotWeighed(ChickWatch watch, MorningReview morning, int? days, string severity)
    {
        var forecast = morning.Forecasts[watch.Chick.Code];
        var since = days is { } many ? many == 1 ? "" : $" (last weight {many} days ago)" : " (never weighed yet)";
        return new GrowthFinding(
            watch.Chick.Code, morning.Day, FindingKinds.NotWeighed, severity,
            $"{watch.Chick.Code} has no weight of today{since}. Is it still to come, or was it forgotten?",
            null, forecast is { } known ? Math.Exp(known.Expected) : null,
            forecast is { } low ? Math.Exp(low.Expected - ChickWatch.Interval95 * low.Deviation) : null,
            forecast is { } high ? Math.Exp(high.Expected + ChickWatch.Interval95 * high.Deviation) : null);
    }

    /// <summary>What was seen and cannot wait, in the words that answer its card; null: it can wait.</summary>
    /// <param name="grams">The day's weight; null if there is none.</param>
    public static GrowthFinding? Seen(string chick, DateOnly day, string kind, double? grams)
    {
        if (kind == ObservationKinds.CropFull)
        {
            var today = grams is { } weight ? $" Today's weight of {Grams(weight)} may be food: it does not show growth." : "";
            return new GrowthFinding(
                chick, day, FindingKinds.TooGood, Severities.Red,
                $"{chick}: crop seen full when it should be empty.{today} Do not feed on a full crop and do not thin the formula to save it; ask an avian veterinarian today.");
        }

        return ObservationKinds.Urgent(kind) is { } urgent ? new GrowthFinding(chick, day, FindingKinds.Observation, Severities.Red, $"{chick}: {urgent}") : null;
    }

    /// <summary>The same, the morning after.</summary>
    public static GrowthFinding? SeenYesterday(string chick, DateOnly today, string kind) => kind == ObservationKinds.CropFull || ObservationKinds.Urgent(kind) is not null
        ? new GrowthFinding(
            chick, today, FindingKinds.Observation, Severities.Look,
            $"{chick}: {ObservationKinds.Words(kind)}, seen yesterday. How is it this morning? If it is no better, or no avian veterinarian was asked: today.")
        : null;

    private static GrowthFinding About(ChickMorning each, string kind, string severity, string text, bool isUsual = false) => new(
        each.Watch.Chick.Code, each.Weight.Day, kind, severity, $"{each.Watch.Chick.Code} {text}",
        (double)each.Weight.Grams, each.ExpectedGrams, each.LowGrams, each.HighGrams)
    {
        IsUsual = isUsual,
    };

    // By the weights themselves: a keeper can check them. Where there is none of that day, in words alone.
    private static string Course(ChickMorning each, int days, double expectedRate, string kind)
    {
        var course = WasItsCourse(expectedRate);
        if (each.WeightBefore(days) is not { } then)
            return $"{(kind == FindingKinds.Loss ? "has lost weight" : kind == FindingKinds.Stall ? "has hardly gained" : "gains too little")} {Since(days)}, {course}";
        days = each.Weight.Day.DayNumber - then.Day.DayNumber;
        return $"{Gained(each.Observed - Math.Log((double)then.Grams), days, expectedRate)} {Since(days)}, from {Grams((double)then.Grams)}, {course}";
    }

    private static string WasItsCourse(double rate) => $"where {Percent(rate)} a day was its course";

    private static string Mates(bool areFine) => areFine ? " Its clutch mates gain as they should." : "";

    private static string Gained(double gained, int days, double expectedRate)
    {
        const double Nothing = 0.005;
        const double Hardly = 0.25;
        return gained < -Nothing ? $"has lost {(100 * (1 - Math.Exp(gained))).ToString("0.0", CultureInfo.InvariantCulture)} % of its weight"
            : gained < Hardly * expectedRate * days ? "has hardly gained"
            : $"gained {Percent(gained / days)} a day";
    }

    private static string Since(int days) => days == 1 ? "since yesterday" : FormattableString.Invariant($"over {days} days");

    private static string Compared(ChickMorning each) =>
        $"{Grams((double)each.Weight.Grams)} today, {Grams(each.ExpectedGrams)} expected ({Grams(each.LowGrams)} to {Grams(each.HighGrams)}).";

    private static string Centile(double centile) => Math.Clamp((int)Math.Round(centile), 1, 99) switch
    {
        var n when n % 10 == 1 && n != 11 => FormattableString.Invariant($"{n}st"),
        var n when n % 10 == 2 && n != 12 => FormattableString.Invariant($"{n}nd"),
        var n when n % 10 == 3 && n != 13 => FormattableString.Invariant($"{n}rd"),
        var n => FormattableString.Invariant($"{n}th"),
    };

    private static string Grams(double grams) => grams.ToString("0.0", CultureInfo.InvariantCulture) + " g";

    private static string Percent(double rate) => (100 * (Math.Exp(rate) - 1)).ToString("+0.0;-0.0;0.0", CultureInfo.InvariantCulture) + " %";
}
