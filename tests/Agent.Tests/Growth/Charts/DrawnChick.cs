using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Growth.References;
using CaptureAgent.Agent.Thriving;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Tests.Growth.Charts;

/// <summary>A chick as its chart gets it: near the published median, with what is expected next, a finding and what a keeper saw.</summary>
internal static class DrawnChick
{
    public const string Species = "Ara glaucogularis";

    private static readonly DateOnly Hatched = new(2026, 2, 6);

    /// <param name="factor">Its weights, as multiples of the median.</param>
    /// <param name="finding">Grams of a weight that is told as red on the last day; null: none is told.</param>
    /// <param name="seen">Day of age on which its crop was seen not down; null: never.</param>
    public static GrowthView Of(int firstAge, int lastAge, double factor = 0.95, double? finding = null, int? seen = null, bool hasHatched = true)
    {
        var library = new ReferenceLibrary([]);
        var median = library.Of(Species)!;
        int[] ages = [.. Enumerable.Range(firstAge, Math.Max(0, lastAge - firstAge + 1))];
        var record = ages.Length == 0 ? null : new GrowthRecord(
            "AM-0147", [.. ages.Select(Hatched.AddDays)], [.. ages.Select(age => (long)(1000 * factor * median.At(age)!.Value.M))]);
        var next = factor * median.At(lastAge + 1)!.Value.M;
        List<CoursePoint> course = [new(Hatched.AddDays(lastAge + 1), lastAge + 1, null, next, 0.94 * next, 1.06 * next, null, null)];
        List<GrowthFinding> findings = finding is null ? [] : [new("AM-0147", Hatched.AddDays(lastAge), "low", Severities.Red, "low", finding)];
        List<Sighting> sightings = seen is { } age
            ? [new("AM-0147", new DateTimeOffset(Hatched.AddDays(age), new TimeOnly(7, 0), TimeSpan.Zero), Hatched.AddDays(age), ObservationKinds.CropNotDown)]
            : [];
        return GrowthView.Of(
            new Chick("AM-0147", Species, hasHatched ? Hatched : null), record, library, ages.Length == 0 ? null : new ChickCourse("AM-0147", Stage.Growing, course), findings, sightings);
    }
}
