namespace CaptureAgent.Agent.Thriving;

/// <summary>What a keeper is told of a morning.</summary>
internal static class Findings
{
    /// <summary>Contents of a full crop in ln(weight), with the noise: 10 % of the weight (common practice, no source).</summary>
    private const double FullCrop = 0.13;

    /// <summary>What a growing chick that takes nothing can lose in a day, of ln(weight) (common practice, no source); and the noise about it.</summary>
    private const double LostInADay = 0.05, Noise = 0.03;

    /// <summary>Reds first, then looks, then notes; the room before its chicks.</summary>
    public static IReadOnlyList<GrowthFinding> Of(MorningReview morning)
    {
        List<GrowthFinding> all = [];
        if (morning.Room.IsShift)
            all.Add(Sentences.RoomShift(morning));
        foreach (var (slip, meant) in morning.Slips)
        {
            all.Add(Sentences.Implausible(slip, meant));

            // Within what a crop holds nobody can tell a full one from exchanged digits: both are asked.
            if (slip.Observed - slip.Expected is > 0 and < FullCrop)
                all.Add(Sentences.TooGood(slip, Severities.Look));

            // Nor a chick that stopped gaining or loses, within what that takes off: it would only be asked for its digits, and be told a morning late.
            if (FellShort(slip) is { } evidence)
            {
                // One weight, and a doubtful one, shows of no recession that it is none.
                var kind = FindingKinds.Of(evidence);
                var canWait = kind == FindingKinds.Slow || slip.Watch.MayRecede;
                all.Add(Sentences.Shortfall(slip, evidence, kind, canWait ? Severities.Look : Severities.Red, MatesAreFine(slip.Watch, morning)));
            }
        }

        foreach (var (a, b) in morning.Exchanged)
        {
            all.Add(Sentences.Swapped(a, b));
            all.Add(Sentences.Swapped(b, a));
        }

        foreach (var each in morning.Judged)
        {
            if (!each.IsSetAside)
                all.AddRange(OfChick(each, morning));
        }

        all.AddRange(Absences.Of(morning));
        return InOrder(all);
    }

    /// <summary>Those of one chick alone: comparing each with its kin takes longest.</summary>
    public static IReadOnlyList<GrowthFinding> Of(MorningReview morning, string chick)
    {
        var own = morning with
        {
            Judged = [.. morning.Judged.Where(each => IsOwn(each))],
            Slips = [.. morning.Slips.Where(each => IsOwn(each.Morning))],
            Exchanged = [.. morning.Exchanged.Where(each => IsOwn(each.A) || IsOwn(each.B))],
        };
        return [.. Of(own).Where(finding => finding.Chick == chick)];

        bool IsOwn(ChickMorning each) => each.Watch.Chick.Code == chick;
    }

    /// <summary>What was seen that cannot wait, once a day each.</summary>
    /// <param name="grams">A chick's weight of the day; null if there is none.</param>
    public static IEnumerable<GrowthFinding> Seen(IEnumerable<Sighting> sightings, Func<Sighting, double?> grams) =>
        sightings.DistinctBy(seen => (seen.Chick, seen.Day, seen.Kind)).Select(seen => Sentences.Seen(seen.Chick, seen.Day, seen.Kind, grams(seen))).OfType<GrowthFinding>();

    /// <summary>What was seen the day before and could not wait: how is it now? Not where it was seen again.</summary>
    /// <param name="sightings">Of the day and the day before.</param>
    public static IEnumerable<GrowthFinding> SeenBefore(DateOnly day, IReadOnlyCollection<Sighting> sightings) =>
        sightings.Where(seen => seen.Day < day).Select(seen => (seen.Chick, seen.Kind)).Except(sightings.Where(seen => seen.Day == day).Select(seen => (seen.Chick, seen.Kind)))
            .Select(seen => Sentences.SeenYesterday(seen.Chick, day, seen.Kind)).OfType<GrowthFinding>();

    /// <summary>Reds first, then looks, then notes; the room before its chicks.</summary>
    public static IReadOnlyList<GrowthFinding> InOrder(IEnumerable<GrowthFinding> findings) =>
        [.. findings.OrderBy(finding => Rank(finding.Severity)).ThenBy(finding => finding.Chick, StringComparer.Ordinal)];

    private static IEnumerable<GrowthFinding> OfChick(ChickMorning each, MorningReview morning)
    {
        var watch = each.Watch;
        var evidence = watch.Shortfall;
        switch (watch.Stage)
        {
            case Stage.Hatchling:
                break;
            case Stage.Growing when watch.Lasting is { Days: > 0 } lasting:
                yield return Sentences.Shortfall(each, lasting, watch.Urgency, MatesAreFine(watch, morning));
                break;
            case Stage.Growing when evidence.LogRatio >= Budget.Note:
                var alone = MatesAreFine(watch, morning);
                yield return Sentences.Shortfall(each, evidence, watch.ShortfallKind, watch.Urgency, alone);
                if (alone)
                    yield return Sentences.BehindClutch(each, evidence);
                break;
            case Stage.Peak or Stage.Weaning or Stage.Weaned:
                foreach (var finding in Weaning.Of(each))
                    yield return finding;
                break;
        }

        if (watch.IsWeaningDoubtful && watch.Chick.Weaning is { } since)
            yield return Sentences.WeaningDoubted(each, since, morning.Day.DayNumber - since.DayNumber <= 1 ? Severities.Look : Severities.Note);
        if (watch.Stage == Stage.Growing && Crossing.Of(watch, morning) is { IsTold: true } crossing)
            yield return Sentences.Crossing(each, crossing, crossing.IsLook && Crossing.IsNews(watch, morning) ? Severities.Look : Severities.Note);
        if (each.Z >= Budget.GoodNote && watch.Count > 2)
            yield return Sentences.TooGood(each, each.Z >= morning.Budget.TooGood(watch) ? Severities.Look : Severities.Note);
    }

    // Of a weight that was not believed: what it would tell, if it were right, of the days since the last that was.
    private static ShortfallEvidence? FellShort(ChickMorning slip)
    {
        var (watch, missing) = (slip.Watch, slip.Expected - slip.Observed);
        var days = slip.Weight.Day.DayNumber - watch.Last!.Value.Day.DayNumber;
        return watch.Stage == Stage.Growing && missing > 0 && missing < days * (watch.Rate + LostInADay) + Noise ? ShortfallEvidence.OfOneWeight(days, watch.Rate, missing) : null;
    }

    // Two mates or more, and none of them behind: it is this chick, not the nest's food or brooder.
    private static bool MatesAreFine(ChickWatch watch, MorningReview morning)
    {
        if (watch.Clutch is not { } clutch)
            return false;
        var mates = morning.Watches.Where(other => other != watch && other.Clutch == clutch && other.Stage == Stage.Growing && other.Last?.Day == morning.Day).ToList();
        return mates.Count >= 2 && mates.TrueForAll(mate => mate.Shortfall.LogRatio < 0.5);
    }

    private static int Rank(string severity) => severity switch
    {
        Severities.Red => 0,
        Severities.Look => 1,
        _ => 2,
    };
}
