using CaptureAgent.Agent.Growth.References;
using CaptureAgent.Agent.Thriving;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Growth;

/// <summary>The growth records of a nursery, as its store has them.</summary>
internal sealed class NurseryGrowth
{
    private readonly Dictionary<string, GrowthRecord> records = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Chick> chicks;

    private readonly CaptureStore store;

    private NurseryGrowth(CaptureStore store) =>
        (this.store, chicks) = (store, store.Chicks().ToDictionary(chick => chick.Code, StringComparer.Ordinal));

    public ReferenceLibrary References { get; private set; } = new([]);

    public static NurseryGrowth Read(CaptureStore store)
    {
        var growth = new NurseryGrowth(store);
        store.EachGrowthRecord(record => growth.records[record.Chick] = record);
        growth.References = new ReferenceLibrary([.. growth.records.Values.Select(growth.Series).OfType<ChickSeries>()]);
        return growth;
    }

    /// <summary>The weights by age of every chick of the species that has a hatch date.</summary>
    public IReadOnlyList<ChickSeries> Of(ReferenceCurve curve) => References.Records(curve.Species);

    /// <summary>A chick that the register does not have is shown all the same, without age.</summary>
    public GrowthView View(string code)
    {
        var record = records.GetValueOrDefault(code);
        var mornings = ChickMornings.Of(store, code, record?.Days[^1]);
        var seen = Sighting.Read(store, code);
        var findings = (mornings?.Findings ?? []).Concat(Findings.Seen(seen, each => Grams(record, each.Day))).OrderBy(finding => finding.Day);
        return GrowthView.Of(chicks.GetValueOrDefault(code) ?? new Chick(code, null, null), record, References, mornings?.Course, [.. findings], seen);
    }

    private static double? Grams(GrowthRecord? record, DateOnly day) => record?.Days.IndexOf(day) is >= 0 and var place ? record.Milligrams[place] / 1000.0 : null;

    /// <summary>Null without a hatch date.</summary>
    private ChickSeries? Series(GrowthRecord record) => chicks.GetValueOrDefault(record.Chick) is { Hatched: { } hatched } chick
        ? new ChickSeries(
            chick.Code, chick.Species, [.. record.Days.Select(day => (double)(day.DayNumber - hatched.DayNumber))], [.. record.Milligrams.Select(milligrams => milligrams / 1000.0)])
        : null;
}
