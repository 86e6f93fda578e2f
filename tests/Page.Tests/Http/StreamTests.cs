using System.Net;
using System.Net.Sockets;
using CaptureAgent.Agent.Events;
using CaptureAgent.Page.Tests.Support;
using Xunit;

namespace CaptureAgent.Page.Tests.Http;

/// <summary>Server-sent events as the WHATWG HTML standard (9.2) has them: id, event, data, a blank line; Last-Event-ID on return.</summary>
public sealed class StreamTests
{
    [Fact]
    public async Task Who_comes_back_gets_what_was_missed_and_nothing_twice()
    {
        await using var page = await ServedPage.StartAsync();
        using var client = page.Client();
        var seen = await ReadAsync(client, "/api/v1/events?from=start", null, 3);
        page.Tell("AM-0147", 186.4m);
        page.Tell("CN-0321", 58.7m);

        var rest = await ReadAsync(client, "/api/v1/events", seen[^1].Id, 2);

        Assert.Equal(["device", "device", "device"], seen.Select(one => one.Name));
        Assert.Equal(["weighing", "weighing"], rest.Select(one => one.Name));
        Assert.Contains("AM-0147", rest[0].Data, StringComparison.Ordinal);
        Assert.Equal(["run1-1", "run1-2", "run1-3", "run1-4", "run1-5"], seen.Concat(rest).Select(one => one.Id));
    }

    [Fact]
    public async Task Who_comes_back_to_a_restarted_agent_is_told_that_something_may_be_missing()
    {
        await using var page = await ServedPage.StartAsync();
        using var client = page.Client();

        var seen = await ReadAsync(client, "/api/v1/events", "run0-17", 4);

        Assert.Equal("missed", seen[0].Name);
        Assert.Equal(["run1-1", "run1-2", "run1-3"], seen.Skip(1).Select(one => one.Id));
    }

    [Fact]
    public async Task The_live_stream_says_the_whole_moment_at_once_and_at_each_change()
    {
        await using var page = await ServedPage.StartAsync();
        using var client = page.Client();
        var reading = ReadAsync(client, "/api/v1/live", null, 3, each: count =>
        {
            if (count == 2)
                page.Tell("AM-0147", 186.4m, "rejected", "hand-contact");
        });

        var moments = await reading;

        Assert.Equal(("beat", "{\"at\":\"2026-03-02T06:00:00+00:00\"}"), (moments[0].Name, moments[0].Data));
        Assert.Contains("\"step\":\"start\"", moments[1].Data, StringComparison.Ordinal);
        Assert.Contains("\"step\":\"refused\"", moments[2].Data, StringComparison.Ordinal);
        Assert.Contains("hand-contact", moments[2].Data, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_listener_that_does_not_read_holds_up_neither_the_capture_nor_the_others()
    {
        await using var page = await ServedPage.StartAsync();
        using var stuck = new TcpClient { ReceiveBufferSize = 1024 };
        await stuck.ConnectAsync(IPAddress.Loopback, page.Port, TestContext.Current.CancellationToken);
        await stuck.GetStream().WriteAsync("GET /api/v1/events?from=start HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n"u8.ToArray(), TestContext.Current.CancellationToken);
        using var client = page.Client();
        // Another, who has the first 5,000 after the three of the start, and reads on.
        var read = 0;
        var reading = ReadAsync(client, "/api/v1/events?from=start", null, 5_000, each: count => Volatile.Write(ref read, count));

        var written = 0;
        while (!reading.IsCompleted)
        {
            // Never further ahead than the ring holds: who reads misses nothing.
            for (var i = 0; i < 500 && written < Volatile.Read(ref read) + 2_000; i++, written++)
                page.Feed.Write(new ProbeEvent(page.Time.GetUtcNow(), "probe", 39m, 0.2m, false, 39.8m));
            await Task.WhenAny(reading, Task.Delay(20, TestContext.Current.CancellationToken));
        }

        var seen = await reading;
        Assert.Equal(seen.Count, seen.Select(one => one.Id).Distinct().Count());
        Assert.DoesNotContain(seen, one => one.Name == "missed");
        Assert.Equal(written + 3, page.Feed.Last);

        // The one that slept has nothing kept for it beyond the ring, and is told so when it wakes. More than any system keeps for a connection.
        for (var i = 0; i < 200_000; i++)
            page.Feed.Write(new ProbeEvent(page.Time.GetUtcNow(), "probe", 39m, 0.2m, false, 39.8m));
        var (events, missed) = page.Feed.After(0);
        Assert.True(missed);
        Assert.Equal(page.Feed.Last - Agent.Page.Live.EventFeed.Capacity + 1, events[0].Id);
        using var lines = new StreamReader(stuck.GetStream());
        using var patience = Patience();
        while (await lines.ReadLineAsync(patience.Token) is { } line)
        {
            if (line == "event: missed")
                return;
        }

        Assert.Fail("The stream ended without a word of what was missed.");
    }

    // What never comes fails the test, and does not hang it.
    private static CancellationTokenSource Patience()
    {
        var patience = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        patience.CancelAfter(TimeSpan.FromMinutes(2));
        return patience;
    }

    private static async Task<List<(string? Id, string Name, string Data)>> ReadAsync(HttpClient client, string path, string? lastId, int count, Action<int>? each = null)
    {
        using var patience = Patience();
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        if (lastId is not null)
            request.Headers.Add("Last-Event-ID", lastId);
        using var answer = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, TestContext.Current.CancellationToken);
        Assert.Equal("text/event-stream", answer.Content.Headers.ContentType?.MediaType);
        using var reader = new StreamReader(await answer.Content.ReadAsStreamAsync(TestContext.Current.CancellationToken));
        var events = new List<(string? Id, string Name, string Data)>();
        (string? Id, string Name, string Data) one = default;
        while (events.Count < count && await reader.ReadLineAsync(patience.Token) is { } line)
        {
            if (line.StartsWith("id: ", StringComparison.Ordinal))
                one.Id = line[4..];
            else if (line.StartsWith("event: ", StringComparison.Ordinal))
                one.Name = line[7..];
            else if (line.StartsWith("data: ", StringComparison.Ordinal))
                one.Data = line[6..];
            else if (line.Length == 0 && one.Name is not null)
            {
                events.Add(one);
                one = default;
                each?.Invoke(events.Count);
            }
        }

        return events;
    }
}
