using CaptureAgent.Agent.Thriving;
using CaptureAgent.Store;

namespace CaptureAgent.Agent.Growth;

/// <summary>What was expected of one chick each morning, and what was found, as the morning summaries had it.</summary>
internal static class ChickMornings
{
    /// <summary>
    /// A note that goes on from morning to morning (weaning due, the usual loss at weaning) is given once, on its first. Up to the day after its last weight, which has a forecast only; null for a chick without a weight.
    /// </summary>
    public static (ChickCourse Course, IReadOnlyList<GrowthFinding> Findings)? Of(CaptureStore store, string code, DateOnly? lastWeight)
    {
        if (lastWeight is not { } last)
            return null;
        List<CoursePoint> points = [];
        List<GrowthFinding> findings = [];
        HashSet<string> saidBefore = [];
        var stage = Stage.Hatchling;
        RoomReview.Of(RoomRecord.Read(store, last.AddDays(1)).Chicks, PublishedGrowth.Instance, last.AddDays(1), Tuning.Usual, morning =>
        {
            if (morning.Watches.FirstOrDefault(each => each.Chick.Code == code) is not { } watch)
                return;
            var day = ChickDay.Of(watch, morning);
            stage = watch.Stage;
            if (day.Grams is not null || day.ExpectedGrams is not null)
                points.Add(new CoursePoint(morning.Day, day.AgeDays, day.Grams, day.ExpectedGrams, day.LowGrams, day.HighGrams, day.GainPercent, day.RatePercentPerDay));
            if (day.Grams is null)
                return;
            var found = Findings.Of(morning, code);
            findings.AddRange(found.Where(finding => finding.Severity != Severities.Note || !saidBefore.Contains(finding.Kind)));
            saidBefore = [.. found.Select(finding => finding.Kind)];
        });
        return (new ChickCourse(code, stage, points), findings);
    }
}
