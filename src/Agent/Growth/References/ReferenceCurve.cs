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
/// <param name="firstAge">Day of age; own records tell of no day before their weights, nor after them.</param>
/// <param name="lastAge">Day of age, not before the first.</param>
internal sealed class ReferenceCurve(ReferenceKind kind, string species, int chicks, string source, Func<double, Lms> at, int firstAge, int lastAge)
{
    // One a day; ages between are interpolated.
    private readonly Lms[] days = [.. Enumerable.Range(firstAge, lastAge - firstAge + 1).Select(day => at(day))];

    public ReferenceKind Kind => kind;

    public string Species => species;

    public int Chicks => chicks;

    public string Source => source;

    /// <summary>The first day of age that it tells of.</summary>
    public int FirstAge => firstAge;

    /// <summary>The last day of age that it tells of.</summary>
    public int LastAge => lastAge;

    /// <summary>Grams; the heaviest median of any age it tells of.</summary>
    public double PeakGrams { get; } = Enumerable.Range(firstAge, lastAge - firstAge + 1).Max(day => at(day).M);

    /// <summary>The published curve beside own records, for the ages that these do not tell of; null where none is known.</summary>
    public ReferenceCurve? Elsewhere { get; init; }

    /// <summary>Null before the first age and after the last.</summary>
    public Lms? At(double ageDays)
    {
        if (!(ageDays >= firstAge) || ageDays > lastAge)
            return null;
        var place = Math.Min((int)ageDays - firstAge, days.Length - 1);
        var (before, after, part) = (days[place], days[Math.Min(place + 1, days.Length - 1)], ageDays - firstAge - place);
        return new Lms(
            before.L + part * (after.L - before.L), before.M * Math.Pow(after.M / before.M, part), before.S + part * (after.S - before.S));
    }

    /// <summary>d ln(median) / dt, a day, over the two days about the age.</summary>
    public double Rate(double ageDays)
    {
        var (from, to) = (Math.Max(firstAge, ageDays - 1), Math.Min(lastAge, ageDays + 1));
        return to > from && At(from) is { } first && At(to) is { } last ? Math.Log(last.M / first.M) / (to - from) : 0;
    }
}
