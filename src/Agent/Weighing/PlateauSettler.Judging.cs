namespace CaptureAgent.Agent.Weighing;

// Whether the level of now is a weight: by rules, and by what they and all else that it shows say together.
internal sealed partial class PlateauSettler
{
    /// <summary>From 92 % of a weight to within 1.5 % of it, the filter aside, one stage of which takes 1.7 delays.</summary>
    private const double LongestApproach = 0.5;

    /// <summary>A chick may be like none that the trees were fitted to: where the rules have agreed for so long they are believed.</summary>
    private const double AgreedSeconds = 4;

    /// <summary>And so long for, of who has lain there longer than most.</summary>
    private const double LateAgreedSeconds = 3, LateSeconds = 12;

    /// <summary>A level that has lasted so long is what a hand left.</summary>
    private const double FreedSeconds = 1;

    /// <summary>In which the slowest wander of all is looked for.</summary>
    private const double IdleSpan = 24;

    private void Judge(BestStretch best)
    {
        var now = series.MomentOf(series.Count - 1);
        var arrived = ArrivedAt();
        var rise = RiseTo(Grams, arrived + 0.5);
        var here = new Plateau(
            double.IsNaN(rise.ReachedAt) ? segmentMoment : Math.Max(segmentMoment, rise.ReachedAt), now, Grams, Beyond(best.Line.Motion), Stop(rise.Seconds));

        // Nobody's rise takes so long to come near its end: what lay there before was another level.
        var filter = double.IsNaN(context.FastestRise) ? SlowRise / 2 : delay.Seconds;
        if (arrived - here.From > LongestApproach + 2 * filter && series.IndexAt(arrived) - segment >= 3)
        {
            Leave(series.IndexAt(arrived));
            return;
        }

        // What lay there before the hand left was no weight.
        if (Surest?.Seconds < here.From && here.Seconds >= FreedSeconds && hand.IsFirst(here, expected))
            Surest = null;
        told = averaging = best.Error;
        var likeness = LikenessOf(best);
        var acceptance = new Acceptance(Uncertainty.Band(Grams, context.Division), here, expected, best.IsRare);

        // The quiet moment may be known best, but the level is asked for.
        if (!best.IsRare && best.Line.Seconds < acceptance.LeastSeconds
            && BestStretch.TryFind(series, segment, delay, context.Division, out var longer, acceptance.LeastSeconds))
        {
            best = longer;
            Grams = best.Grams;
            told = averaging = best.Error;
        }

        path.Add(now, Grams);
        var mayBeLong = !best.IsRare && here.Seconds >= AnimalEvidence.LongSeconds;
        if (!mayBeLong && !acceptance.Allows(best.Line.Seconds, averaging, context.TareUncertainty) && !WrongChance.IsFor(acceptance, averaging, context.TareUncertainty))
        {
            agreedSince = double.NaN;
            return;
        }

        var whole = WholeFrom(Math.Max(here.From, arrived));
        var evidence = AnimalEvidence.Of(series, whole, Grams, expected, BurstLimit, context.Division);
        var sampled = averaging;
        var known = best.IsRare || !evidence.IsLong(Grams, expected) ? sampled : Math.Min(sampled, evidence.LongError);
        averaging = best.IsRare ? Math.Sqrt(averaging * averaging + evidence.ErrorBeyondSampling * evidence.ErrorBeyondSampling) : Math.Max(known, evidence.Error);
        told = best.IsRare ? averaging : Told(averaging, Math.Min(known, evidence.Error), best.Line.Rough);
        var isAllowed = acceptance.Allows(best.Line.Seconds, known, context.TareUncertainty) && acceptance.Allows(best.Line.Seconds, averaging, context.TareUncertainty);
        var isAnimal = evidence.IsAnimal(Grams, expected, context.Division, here.Seconds);
        var isFree = hand.Excluded(here, expected, likeness);
        if (isAllowed && isAnimal)
            State = isFree ? SettleState.Settled : SettleState.Contact;
        agreedSince = State != SettleState.Settled ? double.NaN : double.IsNaN(agreedSince) ? now : agreedSince;

        // One that is stiller than it ever was has nothing that the trees were fitted to.
        if (likeness == Likeness.Stiller || !WrongChance.IsFor(acceptance, sampled, context.TareUncertainty))
            return;
        Show(best, here, evidence, whole, sampled, (isAllowed, isAnimal, isFree), now - arrived);
        if (!WrongChance.Decides(acceptance))
            return;

        // After a gap nobody knows when a hand came: all of its time is waited for.
        var isTold = isFree || sinceLanding && !HandEvidence.IsStillAndOff(here, expected) && !hand.IsStillUnseen(here);
        var isSmall = wrong.IsSmall(signs, now, now - hand.Landed, isAnimal);
        var isWithin = isTold && (isAllowed || acceptance.Holds(averaging));
        if (isWithin && hand.IsFirst(here, expected) && wrong.Chance < (Surest?.Chance ?? 1))
            Surest = new Surest(now, Grams, StandardError, rounding, Motion, wrong.Chance);
        if (isSmall && isWithin || now - agreedSince >= (now - hand.Landed > LateSeconds ? LateAgreedSeconds : AgreedSeconds))
            State = SettleState.Settled;
        else if (State == SettleState.Settled)
            State = SettleState.Moving;
    }

    // Of two estimates of one error the greater decides. As an uncertainty it would be too large: of an animal's smooth motion by half, of what is rough not at all (found on simulated chicks).
    private static double Told(double greater, double less, double rough)
    {
        const double Share = 0.5;
        var share = Share * (1 - rough);
        return Math.Sqrt((1 - share) * greater * greater + share * less * less);
    }

    private void Show(
        in BestStretch best, in Plateau here, in AnimalEvidence evidence, int whole, double sampled, (bool Allowed, bool Animal, bool Free) gates, double sinceArrival)
    {
        var band = Uncertainty.Band(Grams, context.Division);
        var (older, newer) = (Half(best.From, newer: false), Half(best.From, newer: true));
        var all = series.Line(whole, series.Count, delay.Seconds);
        var off = Math.Log(Math.Max(Grams, 1e-3) / expected);
        signs.Clear();
        signs.Add(off).Add(Math.Abs(off)).Add(gates.Allowed).Add(gates.Animal).Add(gates.Free)
            .Add(sampled / band).Add(averaging / band).Add(evidence.Error / band).Add(context.TareUncertainty / band)
            .Add(best.Line.Seconds).Add(best.IsRare).Add(best.Line.Motion / band).Add(best.Line.Rough).Add(best.Line.Trend / band).Add((newer - older) / band)
            .Add(context.Division / Grams);
        hand.Show(signs, here, expected);
        signs.Add(evidence.Seconds).Add(evidence.Motion / band).Add(evidence.Motion / Grams)
            .Add(evidence.Quick, band).Add(evidence.Slow, band).Add(evidence.Slowest, band)
            .Add(evidence.Quick.Favour(evidence.Motion, context.Division)).Add(evidence.Slow.Favour(evidence.Motion, context.Division))
            .Add(evidence.Slowest.Favour(evidence.Motion, context.Division)).Add(evidence.Slow.IsSampling)
            .Add(hand.Stepped).Add(LowPlateau.IsStill).Add(delay.Seconds).Add(context.FastestRise).Add(context.StillDeviation / context.Division)
            .Add(best.Line.Count / best.Line.Seconds)
            .Add(all.Mean / Grams - 1).Add(all.Slope / Grams - 1).Add(all.Trend / band).Add(sinceArrival)
            .Add(burstsEnded).Add(highest / Grams - 1).Add(best.Line.Roughness);
        habit.Show(signs, Motion, habit.Mornings < MotionHabit.LeastMornings ? Motion : SteadyMotion(best), Grams);
        var idle = Wander.Of(series, Math.Max(whole, series.IndexAt(series.MomentOf(series.Count - 1) - IdleSpan)), Wander.IdleSeconds, Grams, BurstLimit, context.Division);
        signs.Add(path.Range(1) / band).Add(path.Range(2.5) / band).Add(path.Range(6) / band).Add(idle.Spread / band).Add(idle.Count);
    }

    // Mean of one half of the newest stretch; not a number where that is too few readings.
    private double Half(int from, bool newer)
    {
        var middle = series.IndexAtTime((series.TimeOf(from) + series.TimeOf(series.Count - 1)) / 2);
        if (middle - from < 3 || series.Count - middle < 3)
            return double.NaN;
        return (newer ? series.Line(middle, series.Count, delay.Seconds) : series.Line(from, middle, delay.Seconds)).Mean;
    }
}
