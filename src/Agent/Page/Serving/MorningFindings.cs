using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Page.Live;
using CaptureAgent.Agent.Thriving;

namespace CaptureAgent.Agent.Page.Serving;

/// <summary>Reviews the morning while somebody looks, so that the page shows the reds of the whole room, also after a restart.</summary>
/// <remarks>The same review as <c>capture-agent morning</c>, without those that are not weighed yet: they are what is to do.</remarks>
internal sealed class MorningFindings(PageParts parts)
{
    private static readonly TimeSpan LookEvery = TimeSpan.FromSeconds(2);

    /// <summary>After a review nothing is done for so many times what it took: a large store on a small board must not keep it busy.</summary>
    private const int Rest = 10;

    public async Task RunAsync(CancellationToken stop)
    {
        var seen = (Data: -1L, Record: -1L, Day: default(DateOnly));
        while (!stop.IsCancellationRequested)
        {
            var wait = LookEvery;
            if (parts.Looking > 0)
            {
                var day = parts.Today;
                var now = (Data: await parts.Store.DoAsync(store => store.DataVersion(), stop), parts.Feed.Situation.Record, Day: day);
                if (now != seen)
                {
                    var start = parts.Time.GetTimestamp();
                    await ReviewAsync(day, stop);
                    seen = now with { Record = parts.Feed.Situation.Record };
                    wait += Rest * parts.Time.GetElapsedTime(start);
                }
            }

            await Task.Delay(wait, parts.Time, stop);
        }
    }

    private async Task ReviewAsync(DateOnly day, CancellationToken stop)
    {
        var record = await parts.Store.DoAsync(store => MorningRecord.Read(store, day), stop);
        var summary = MorningSummary.Of(record, PublishedGrowth.Instance);
        // Nobody tells a finding at a moment of its own: it is of the day.
        var at = new DateTimeOffset(day, TimeOnly.MinValue, TimeSpan.Zero);
        parts.Feed.Review(day, [.. summary.Findings
            .Where(finding => finding.Kind != FindingKinds.NotWeighed)
            .Select(finding => new FindingSituation(
                at, finding.Chick, finding.Kind, finding.Severity, finding.Text, Grams(finding.Grams), Grams(finding.ExpectedGrams), Grams(finding.LowGrams), Grams(finding.HighGrams)))]);
    }

    private static decimal? Grams(double? grams) => grams is { } value ? decimal.Round((decimal)value, 1) : null;
}
