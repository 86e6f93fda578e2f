using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Feeding;
using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Hygiene;

namespace CaptureAgent.Agent.Round;

/// <summary>What a station decides by.</summary>
/// <param name="Station">The station's name.</param>
/// <param name="FeedFollowsWeighing">A scan, or a heavier second weighing, after the weighing is a feed.</param>
/// <param name="Accuracy">Largest error in grams within a scale's specification, by device; see <see cref="Weighing.Uncertainty.Accuracy"/> where it is not given.</param>
internal sealed record DecisionRules(
    string Station, NurseryDay Days, EmptyingGap Emptying, FeedPlan Plan, HygieneClock Hygiene, bool FeedFollowsWeighing,
    IReadOnlyDictionary<string, double> Accuracy, IExpectedWeight ExpectedWeight)
{
    public static DecisionRules Of(StationOptions options)
    {
        var zone = TimeZoneInfo.FindSystemTimeZoneById(options.TimeZone);
        var days = new NurseryDay(zone, options.DayStartsAt);
        var accuracy = options.Devices
            .Where(device => device.AccuracyGrams is not null)
            .ToDictionary(device => device.Id, device => (double)device.AccuracyGrams!.Value);
        return new DecisionRules(
            options.Station, days, new EmptyingGap([.. options.Feeding.EmptyingGap]), new FeedPlan(options.Feeding, zone),
            new HygieneClock(options.Hygiene, options.Codes.Cards, days), options.FeedFollowsWeighing, accuracy, new ShapeAverage());
    }
}
