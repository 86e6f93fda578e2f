namespace CaptureAgent.Agent.Growth.References;

internal enum ReferenceKind
{
    /// <summary>This nursery's own records, drawn towards what else is known where they are few.</summary>
    OwnRecords,

    /// <summary>A published curve, and nothing else.</summary>
    Published,

    /// <summary>The shape of a group of species, set to the size of the weights at hand.</summary>
    Group,
}

/// <summary>What chicks of a species weigh, by age: centiles from the day of hatching on.</summary>
/// <param name="Chicks">How many chicks of this nursery it was made from; 0 where none.</param>
/// <param name="Source">What it is and where it comes from, for a keeper; stands on every chart.</param>
internal sealed class ReferenceCurve(ReferenceKind kind, string species, int chicks, string source, Func<double, Lms> at, int lastAge)
{
    // One a day; ages between are interpolated.
    private readonly Lms[] days = [.. Enumerable.Range(0, lastAge + 1).Select(day => at(day))];

    public ReferenceKind Kind => kind;

    public string Species => species;

    public int Chicks => chicks;

    public string Source => source;

    /// <summary>The last day of age that it tells of.</summary>
    public int LastAge => lastAge;

    /// <summary>Grams; the heaviest median of any age.</summary>
    public double PeakGrams { get; } = Enumerable.Range(0, lastAge + 1).Max(day => at(day).M);

    /// <summary>Null before hatching and after the last age.</summary>
    public Lms? At(double ageDays)
    {
        if (!(ageDays >= 0) || ageDays > lastAge)
            return null;
        var day = Math.Min((int)ageDays, lastAge - 1);
        var (before, after, part) = (days[day], days[day + 1], ageDays - day);
        return new Lms(
            before.L + part * (after.L - before.L), before.M * Math.Pow(after.M / before.M, part), before.S + part * (after.S - before.S));
    }

    /// <summary>d ln(median) / dt, a day, over the two days about the age.</summary>
    public double Rate(double ageDays)
    {
        var (from, to) = (Math.Max(0, ageDays - 1), Math.Min(lastAge, ageDays + 1));
        return At(from) is { } first && At(to) is { } last ? Math.Log(last.M / first.M) / (to - from) : 0;
    }
}
