using CaptureAgent.Agent.Growth.Fitting;
using CaptureAgent.Agent.Growth.Models;
using CaptureAgent.Agent.Growth.References;
using CaptureAgent.Agent.Thriving;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Growth;

/// <summary>How one chick has grown: its weights, the curves fitted to them, the reference beside it, and what was found.</summary>
/// <param name="HasAge">A hatch date is registered; without one ages are days since the first weight, and no reference is shown.</param>
/// <param name="Fits">One a model, those without any first weight left out; up to the peak only.</param>
/// <param name="Observations">What keepers saw of it, oldest first.</param>
/// <param name="Course">What was expected each morning; null where it was not worked out.</param>
internal sealed record GrowthView(
    Chick Chick, bool HasAge, IReadOnlyList<WeightPoint> Weights, IReadOnlyList<GrowthFit> Fits, ReferenceCurve? Reference,
    ChickCourse? Course, IReadOnlyList<GrowthFinding> Findings, IReadOnlyList<Sighting> Observations)
{
    /// <summary>The fit, of those that are told, that describes the weights best, by Akaike's criterion; null where none is.</summary>
    public GrowthFit? BestFit => Fits.Where(fit => fit.IsTold).MinBy(fit => fit.Aicc);

    /// <summary>From which ages count: the day of hatching, else that of the first weight; null where neither is known.</summary>
    public DateOnly? DayZero => Chick.Hatched ?? (Weights.Count > 0 ? Weights[0].Day : null);

    /// <summary>What is expected next, tomorrow as a rule; null where no morning was worked out, or the last one has its weight.</summary>
    public CoursePoint? Next => Course is { Points: [.., { Grams: null } next] } ? next : null;

    /// <summary>Days since <see cref="DayZero"/>.</summary>
    public int? AgeOn(DateOnly day) => day.DayNumber - DayZero?.DayNumber;

    public static GrowthView Of(
        Chick chick, GrowthRecord? record, ReferenceLibrary library, ChickCourse? course = null, IReadOnlyList<GrowthFinding>? findings = null,
        IReadOnlyList<Sighting>? observations = null)
    {
        var reference = chick.Hatched is null ? null : library.Of(chick.Species, without: chick.Code);
        var weights = WeightsOf(record, chick.Hatched, reference);
        double[] ages = [.. weights.Select(weight => (double)weight.AgeDays)];
        double[] grams = [.. weights.Select(weight => weight.Grams)];
        var fitter = new Fitter();
        return new GrowthView(
            chick, chick.Hatched is not null, weights,
            [.. GrowthModel.All.Select(model => fitter.FitToPeak(model, ages, grams)).OfType<GrowthFit>()],
            reference, course, findings ?? [], observations ?? []);
    }

    private static List<WeightPoint> WeightsOf(GrowthRecord? record, DateOnly? hatched, ReferenceCurve? reference)
    {
        List<WeightPoint> weights = [];
        for (var i = 0; i < (record?.Days.Count ?? 0); i++)
        {
            var day = record!.Days[i];
            var age = day.DayNumber - (hatched ?? record.Days[0]).DayNumber;
            var grams = record.Milligrams[i] / 1000.0;
            var before = weights.Count > 0 ? weights[^1] : null;
            var at = reference?.At(age);
            weights.Add(new WeightPoint(
                day, age, grams,
                before is null ? null : 100 * (grams / before.Grams - 1),
                before is null ? null : 100 * Math.Log(grams / before.Grams) / (day.DayNumber - before.Day.DayNumber),
                at?.RestrictedZ(grams), at is { } lms ? 100 * lms.Centile(grams) : null));
        }

        return weights;
    }
}
