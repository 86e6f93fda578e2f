using CaptureAgent.Agent.Growth;

namespace CaptureAgent.Agent.Thriving;

/// <summary>A room of chicks, gone through morning by morning. What is said of a morning comes from it and the mornings before.</summary>
internal sealed class RoomReview
{
    private readonly IReferenceGrowth reference;
    private readonly Dictionary<string, ChickWatch> watches = new(StringComparer.Ordinal);
    private readonly RoomNoise noise;

    private RoomCourse room;

    private readonly GrowthPriors priors;

    private RoomReview(IReferenceGrowth reference, RoomNoise noise, GrowthPriors priors)
    {
        this.reference = reference;
        this.noise = noise;
        this.priors = priors;
    }

    public NoiseLevel Noise => noise.Level;

    /// <summary>Goes through all mornings up to and including a day.</summary>
    /// <param name="each">Told every morning; null: nobody wants to know, and the forecasts of those not weighed are not made.</param>
    public static RoomReview Of(IReadOnlyCollection<WatchedChick> chicks, IReferenceGrowth reference, DateOnly to, Tuning tuning, Action<MorningReview>? each = null)
    {
        var review = new RoomReview(reference, new RoomNoise(), new GrowthPriors(reference, tuning));
        foreach (var chick in chicks)
            review.watches.Add(chick.Code, new ChickWatch(chick, tuning));
        var first = chicks.Where(chick => chick.Weights.Count > 0).Select(chick => chick.Weights[0].Day).DefaultIfEmpty(to).Min();
        var next = chicks.ToDictionary(chick => chick.Code, _ => 0, StringComparer.Ordinal);
        for (var day = first; day <= to; day = day.AddDays(1))
        {
            List<(ChickWatch, MorningWeight)> weights = [];
            foreach (var watch in review.watches.Values)
            {
                var known = watch.Chick.Weights;
                var i = next[watch.Chick.Code];
                if (i >= known.Count || known[i].Day != day)
                    continue;
                weights.Add((watch, known[i]));
                next[watch.Chick.Code] = i + 1;
            }

            var morning = review.Next(day, weights, withForecasts: each is not null);
            each?.Invoke(morning);
        }

        return review;
    }

    /// <summary>A morning as it stands so far; the review itself does not move.</summary>
    public MorningReview Preview(DateOnly day, IEnumerable<(string Code, MorningWeight Weight)> weights)
    {
        var copy = new RoomReview(reference, noise.Copy(), priors) { room = room };
        foreach (var (code, watch) in watches)
            copy.watches.Add(code, watch.Copy());
        return copy.Next(day, [.. weights.Where(each => copy.watches.ContainsKey(each.Code)).Select(each => (copy.watches[each.Code], each.Weight))], withForecasts: true);
    }

    private MorningReview Next(DateOnly day, List<(ChickWatch Watch, MorningWeight Weight)> weights, bool withForecasts)
    {
        var kin = Kinship();
        foreach (var watch in watches.Values)
            watch.PassTo(day, noise.Level, GroupOf(watch) is { } group ? kin.GetValueOrDefault(group) : null);
        var forecasts = withForecasts ? watches.Values.ToDictionary(watch => watch.Chick.Code, watch => watch.Forecast(), StringComparer.Ordinal) : [];
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
            foreach (var watch in watches.Values.Where(watch => watch.Count > 1 || watch.LastSeen != day))
                watch.Shift(common.Common);
        }

        room = room.After(common);
        var budget = Budget.Divide(judged, noise.Level.Correlation);
        foreach (var each in judged)
            each.Watch.Tell(budget);
        noise.Learn(learned);
        return new MorningReview(day, [.. watches.Values], forecasts, judged, common, slips, exchanged, budget);
    }

    // By species, or by clutch where the register names none. Without a date of hatching a chick's courses are not those of the others.
    private static string? GroupOf(ChickWatch watch) =>
        watch.Chick.Hatched is null ? null : watch.Chick.Species is { } species ? "species " + species : watch.Chick.Clutch is { } clutch ? "clutch " + clutch : null;

    private Dictionary<string, Kin> Kinship()
    {
        Dictionary<string, Kin> kin = new(StringComparer.OrdinalIgnoreCase);
        foreach (var watch in watches.Values)
        {
            if (watch.Course is not { } course || GroupOf(watch) is not { } group)
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
            var other = each.OtherReading();
            if (other is null && (Math.Abs(each.Z) < Budget.Impossible || Math.Abs(each.Observed - each.Expected) < 0.25))
                continue;
            each.IsSetAside = true;
            slips.Add((each, other is { } meant ? FormattableString.Invariant($"{meant.What} it would be {meant.Grams:0.0##} g") : null));
        }

        return slips;
    }
}
