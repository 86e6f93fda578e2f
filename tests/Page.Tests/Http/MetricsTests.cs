using System.Text.RegularExpressions;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Page.Measuring;
using CaptureAgent.Page.Tests.Support;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Page.Tests.Http;

/// <summary>The scrape address: the Prometheus text format, version 0.0.4 (its grammar: prometheus.io, "Exposition formats"; from memory), names after OpenTelemetry's rules for it.</summary>
public sealed partial class MetricsTests
{
    [Fact]
    public async Task What_was_told_is_counted_and_timed()
    {
        var time = new FakeTimeProvider(new DateTimeOffset(2026, 3, 2, 6, 0, 0, TimeSpan.Zero));
        await using var page = await ServedPage.StartAsync(time);
        using var counts = new Instrumentation(time);
        var output = counts.Count(new NoEvents());
        output.Write(new PlacedEvent(time.GetUtcNow(), "scale", "AM-0147"));
        time.Advance(TimeSpan.FromSeconds(4));
        output.Write(new WeighingEvent(time.GetUtcNow(), "AM-0147", 186.4m, 0.11m, "rejected", ["after-feed", "already-weighed"], "Tomorrow.", 8.2m, 24, "scale"));
        output.Write(new DeviceEvent(time.GetUtcNow(), "scale", "down", "unplugged"));
        output.Write(new DeviceEvent(time.GetUtcNow(), "scale", "up", null));
        using var client = page.Client();

        using var answer = await client.GetAsync("/metrics", TestContext.Current.CancellationToken);
        var text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);

        Assert.Equal("text/plain", answer.Content.Headers.ContentType?.MediaType);
        Assert.All(text.Split('\n', StringSplitOptions.RemoveEmptyEntries), line => Assert.Matches(Line(), line));
        foreach (var expected in (string[])["reason=\"after-feed\"", "reason=\"already-weighed\"", "verdict=\"rejected\"", "reconnects", "settle_duration_seconds_sum", "settle_duration_seconds_count"])
            Assert.Contains(expected, text, StringComparison.Ordinal);
        Assert.Contains(text.Split('\n'), line => line.Contains("settle_duration_seconds_sum", StringComparison.Ordinal) && line.EndsWith(" 4", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Health_says_that_the_agent_captures_and_nothing_of_the_chicks()
    {
        await using var page = await ServedPage.StartAsync();
        using var client = page.Client();

        var health = await ServedPage.GetAsync(client, "/health");

        Assert.Equal("capturing", health.GetProperty("status").GetString());
        Assert.Equal(3, health.GetProperty("events").GetInt64());
        Assert.Equal(["status", "station", "events"], health.EnumerateObject().Select(each => each.Name));
    }

    // A comment, or a name with labels in braces and a number.
    [GeneratedRegex("""^(# (HELP|TYPE) [a-zA-Z_:][a-zA-Z0-9_:]* .+|[a-zA-Z_:][a-zA-Z0-9_:]*(\{([a-zA-Z_][a-zA-Z0-9_]*="([^"\\]|\\.)*",?)*\})? ([-+]?[0-9.]+([eE][-+]?[0-9]+)?|[-+]Inf|NaN)( [0-9]+)?)$""")]
    private static partial Regex Line();
}
