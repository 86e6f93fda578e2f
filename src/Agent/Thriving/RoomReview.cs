using CaptureAgent.Agent.Growth;

namespace CaptureAgent.Agent.Thriving;

/// <summary>A room of chicks, gone through morning by morning. What is said of a morning comes from it and the mornings before.</summary>
internal sealed class RoomReview
{
    private readonly ChickWatch[] watches;
    private readonly IReferenceGrowth reference;
    private readonly RoomNoise noise;
    private readonly GrowthPriors priors;

    private RoomCourse room;

    private RoomReview(ChickWatch[] watches, IReferenceGrowth reference, RoomNoise noise, GrowthPriors priors)
    {
        this.watches = watches;
        this.reference = reference;
        this.noise = noise;
        this.priors = priors;
    }

    public NoiseLevel Noise => noise.Level;

    /// <summary>Goes through all mornings up to and including a day.</summary>
    /// <param name="each">Told every morning; null: nobody wants to know, and the forecasts of those not weighed are not made.</param>
    public static RoomReview Of(IReadOnlyCollection<WatchedChick> chicks, IReferenceGrowth reference, DateOnly to, Tuning tuning, Action<MorningReview>? each = null)
    {
        var review = new RoomReview([.. chicks.Select(chick => new ChickWatch(chick, tuning))], reference, new RoomNoise(), new GrowthPriors(reference, tuning));
        var first = chicks.Where(chick => chick.Weights.Count > 0).Select(chick => chick.Weights[0].Day).DefaultIfEmpty(to).Min();
        var next = new int[review.watches.Length];
        for (var day = first; day <= to; day = day.AddDays(1))
        {
            List<(ChickWatch, MorningWeight)> weights = [];
            for (var i = 0; i < next.Length; i++)
            {
                var known = review.watches[i].Chick.Weights;
                if (next[i] < known.Count && known[next[i]].Day == day)
                    weights.Add((review.watches[i], known[next[i]++]));
            }

            var morning = review.Next(day, weights, withForecasts: each is not null);
            each?.Invoke(morning);
        }

        return review;
    }

    /// <summary>A morning as it stands so far; the review itself does not move.</summary>
    public MorningReview Preview(DateOnly day, IEnumerable<(string Code, MorningWeight Weight)> weights)
    {
        var copy = new RoomReview([.. watches.Select(watch => watch.Copy())], reference, noise.Copy(), priors) { room = room };
        var byCode = copy.watches.ToDictionary(watch => watch.Chick.Code, StringComparer.Ordinal);
        return copy.Next(day, [.. weights.Where(each => byCode.ContainsKey(each.Code)).Select(each => (byCode[each.Code], each.Weight))], withForecasts: true);
    }

    private MorningReview Next(DateOnly day, List<(ChickWatch Watch, MorningWeight Weight)> weights, bool withForecasts)
    {
        var kin = Kinship();
        foreach (var watch in watches)
            watch.PassTo(day, noise.Level, watch.Group is { } group ? kin.GetValueOrDefault(group) : null);
        var forecasts = withForecasts ? watches.ToDictionary(watch => watch.Chick.Code, watch => watch.Forecast(), StringComparer.Ordinal) : [];
        List<ChickMorning> judged = [];
        foreach (var (watch, weight) in weights)
        {
            if (watch.Compare(weight) is { } morning)
                judged.Add(morning);
            else
                watch.Start(weight, priors, noise.Level);
        }

        var common = room.Passing(RoomEffect.Of([.. judged.Where(each => each.Watch.Count >= 4 && each.Deviation < 0.06).Select(each => (each.Observed - each.Forecast, each.Deviation))]));
        foreach (var each in judged)
            each.Common = common.Common;
        var exchanged = Exchange.Find(judged);
        foreach (var (a, b) in exchanged)
            a.IsSetAside = b.IsSetAside = true;
        var slips = Slips(judged);
        List<(double, double?)> learned = [];
        foreach (var each in judged)
        {
            if (!each.IsSetAside && each.Watch.Count >= 3)
                learned.Add((each.Z, each.Watch.LastResidual is { } before && before.Day.AddDays(1) == day ? before.Z : null));
            each.Watch.Take(each, each.Doubt(), reference);
        }

        if (room.Stays(common))
        {
            // A chick that is new this morning knows no other weights.
            foreach (var watch in watches.Where(watch => watch.Count > 1 || watch.LastSeen != day))
                watch.Shift(common.Common);
        }

        room = room.After(common);
        var budget = Budget.Divide(judged, noise.Level.Correlation);
        foreach (var each in judged)
            each.Watch.Tell(each, budget);
        noise.Learn(learned);
        return new MorningReview(day, watches, forecasts, judged, common, slips, exchanged, budget);
    }

    private Dictionary<string, Kin> Kinship()
    {
        Dictionary<string, Kin> kin = new(StringComparer.OrdinalIgnoreCase);
        foreach (var watch in watches)
        {
            if (watch is not { Course: { } course, Group: { } group })
                continue;
            if (!kin.TryGetValue(group, out var known))
                kin[group] = known = new Kin(course.Species.Prior);
            course.Tell(known);
        }

        return kin;
    }

    private static List<(ChickMorning, string?)> Slips(List<ChickMorning> judged)
    {
        List<(ChickMorning, string?)> slips = [];
        foreach (var each in judged)
        {
            if (each.IsSetAside || each.Watch.SetAsideYesterday || Math.Abs(each.Z) < Budget.OddWeight)
                continue;
            // What was told to fail and weighs less than expected is not argued away.
            if (each.Watch.Lasting is not null && each.Z < 0)
                continue;
            var other = each.OtherReading();
            if (other is null && (Math.Abs(each.Z) < Budget.Impossible || Math.Abs(each.Observed - each.Expected) < 0.25))
                continue;
            each.IsSetAside = true;
            slips.Add((each, other is { } meant ? FormattableString.Invariant($"{meant.What} it would be {meant.Grams:0.0##} g") : null));
        }

        return slips;
    }
}
