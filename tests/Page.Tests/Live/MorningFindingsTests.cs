using CaptureAgent.Agent.Page.Serving;
using CaptureAgent.Page.Tests.Support;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Page.Tests.Live;

public sealed class MorningFindingsTests
{
    [Fact]
    public async Task What_was_seen_that_cannot_wait_is_red_on_the_page_though_nobody_told_it_since_the_start()
    {
        await using var served = await ServedPage.StartAsync();
        served.Store.Add(new ObservationRow(Guid.NewGuid(), "CN-0321", served.Time.GetUtcNow(), "Etc/UTC", ServedPage.Day, "listless", "east-room"));
        served.Store.Add(new CropMarkRow(Guid.NewGuid(), "AM-0147", served.Time.GetUtcNow(), "Etc/UTC", ServedPage.Day, "east-room"));
        using var looking = served.Parts.Look();
        using var stop = new CancellationTokenSource();
        var review = new MorningFindings(served.Parts).RunAsync(stop.Token);
        for (var tries = 0; served.Feed.Situation.Findings.Count == 0 && tries < 1000; tries++)
            await Task.Delay(10, TestContext.Current.CancellationToken);
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => review);

        var reds = served.Feed.Situation.Findings.Where(finding => finding.Severity == "red").ToList();
        Assert.Equal([("AM-0147", "too-good"), ("CN-0321", "observation")], reds.Select(finding => (finding.Chick!, finding.Finding)));
        Assert.DoesNotContain(served.Feed.Situation.Findings, finding => finding.Finding == "not-weighed");
    }
}
