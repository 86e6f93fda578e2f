using System.Globalization;
using System.Text;
using System.Text.Json;
using CaptureAgent.Agent.Page.Serving;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace CaptureAgent.Agent.Page.Api;

/// <summary>The moment, and the two streams of server-sent events (WHATWG HTML, 9.2): the moment as it changes, and every event.</summary>
internal static class LiveRoutes
{
    /// <summary>A word at least this often, so that both sides notice a network that is gone.</summary>
    private static readonly TimeSpan Heartbeat = TimeSpan.FromSeconds(10);

    public static void Map(IEndpointRouteBuilder routes, PageParts parts)
    {
        routes.MapGet("/api/v1/now", context => Exchange.AnswerAsync(context, parts.Feed.Draw().Json));
        routes.MapGet("/api/v1/live", context => new EventStream(context, parts).RunAsync(LiveAsync));
        routes.MapGet("/api/v1/events", context => new EventStream(context, parts).RunAsync(EventsAsync));
    }

    // Each message is the whole moment: whoever comes back after an hour needs nothing else, and who is slow skips what is past.
    private static async Task LiveAsync(EventStream stream, PageParts parts)
    {
        var seen = -1L;
        await BeatAsync(stream, parts);
        while (true)
        {
            if (parts.Feed.Draw() is var (version, json) && version > seen)
            {
                seen = version;
                await stream.SendAsync($"{parts.Feed.Run}-{version.ToString(CultureInfo.InvariantCulture)}", "now", json);
            }

            if (!await stream.WaitAsync(parts.Feed.ChangedAsync(seen, long.MaxValue), Heartbeat))
                await BeatAsync(stream, parts);
        }
    }

    private static async Task EventsAsync(EventStream stream, PageParts parts)
    {
        var sent = await PlaceAsync(stream, parts);
        while (true)
        {
            var (events, missed) = parts.Feed.After(sent);
            if (missed)
                await stream.SendAsync(null, "missed", Encoding.ASCII.GetBytes("{}"));
            foreach (var one in events)
            {
                await stream.SendAsync($"{parts.Feed.Run}-{one.Id.ToString(CultureInfo.InvariantCulture)}", one.Name, one.Json);
                sent = one.Id;
            }

            if (events.Count == 0 && !await stream.WaitAsync(parts.Feed.ChangedAsync(long.MaxValue, sent), Heartbeat))
                await BeatAsync(stream, parts);
        }
    }

    // With the station's time: minutes that run down on a page must not depend on what its own clock says.
    private static Task BeatAsync(EventStream stream, PageParts parts) =>
        stream.SendAsync(null, "beat", JsonSerializer.SerializeToUtf8Bytes(new Beat(parts.Time.GetUtcNow()), ApiJson.Default.Beat));

    // New listeners start now, unless they ask for all that is kept; those who come back start after what they have.
    private static async Task<long> PlaceAsync(EventStream stream, PageParts parts)
    {
        var asked = stream.LastId ?? "";
        var dash = asked.LastIndexOf('-');
        if (dash > 0 && asked[..dash] == parts.Feed.Run && long.TryParse(asked.AsSpan(dash + 1), NumberStyles.None, CultureInfo.InvariantCulture, out var id) && id <= parts.Feed.Last)
            return id;
        if (asked.Length == 0)
            return stream.WantsAll ? 0 : parts.Feed.Last;
        // Of another run: what happened then is in the store, and all of this run is new.
        await stream.SendAsync(null, "missed", Encoding.ASCII.GetBytes("{}"));
        return 0;
    }
}
