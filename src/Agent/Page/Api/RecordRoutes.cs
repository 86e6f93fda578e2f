using System.Globalization;
using System.Text.Json;
using CaptureAgent.Agent.Growth;
using CaptureAgent.Agent.Page.Guard;
using CaptureAgent.Agent.Page.Live;
using CaptureAgent.Agent.Page.Serving;
using CaptureAgent.Agent.Thriving;
using CaptureAgent.Store;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace CaptureAgent.Agent.Page.Api;

/// <summary>Reading the record: the round, the chicks, their weighings and feeds.</summary>
internal sealed class RecordRoutes(PageParts parts)
{
    /// <summary>Rows of a chick on one view.</summary>
    private const int RowsOfChick = 200;

    private static readonly TimeSpan FeedsOfChick = TimeSpan.FromDays(3), NotesOfChick = TimeSpan.FromDays(30), FeedsOfRound = TimeSpan.FromDays(2);

    /// <summary>Days; a chick that began to be weaned earlier than that is told by its feeds.</summary>
    private const int WeaningBack = 120;

    private (long Record, long Data, DateOnly Day, byte[] Json) round = (-1, -1, default, []);

    public static void Map(IEndpointRouteBuilder routes, PageParts parts)
    {
        var record = new RecordRoutes(parts);
        routes.MapGet("/api/v1/round", record.RoundAsync);
        routes.MapGet("/api/v1/chicks", record.ChicksAsync);
        routes.MapGet("/api/v1/chicks/{code}", record.ChickAsync);
        routes.MapGet("/api/v1/chicks/{code}/record", record.ChickRecordAsync);
        routes.MapGet("/api/v1/chicks/{code}/reference", record.ReferenceAsync);
        routes.MapGet("/api/v1/weighings", record.WeighingsAsync);
        routes.MapGet("/api/v1/feeds", record.FeedsAsync);
    }

    private async Task RoundAsync(HttpContext context)
    {
        var day = Exchange.Day(context, "day") ?? parts.Today;
        var situation = parts.Feed.Situation;
        // All pages ask at the same moment: the answer is made once.
        var json = await parts.Store.DoAsync(store =>
        {
            var data = store.DataVersion();
            if ((round.Record, round.Data, round.Day) != (situation.Record, data, day))
            {
                var rows = store.Weighings(from: day.AddDays(-Math.Min(RoundOfDay.DaysBack, day.DayNumber)), to: day);
                var findings = day == situation.Day ? situation.Findings : [];
                var feeds = day == parts.Today ? store.Feeds(parts.Time.GetUtcNow() - FeedsOfRound) : [];
                var view = RoundOfDay.Of(day, store.Chicks(), rows, findings, feeds, store.Observations(from: day.AddDays(-Math.Min(WeaningBack, day.DayNumber))), parts.Plan, parts.Time.GetUtcNow());
                round = (situation.Record, data, day, JsonSerializer.SerializeToUtf8Bytes(view, ApiJson.Default.RoundView));
            }

            return round.Json;
        }, context.RequestAborted);
        await Exchange.AnswerAsync(context, json);
    }

    private async Task ChicksAsync(HttpContext context)
    {
        var (after, limit) = (Exchange.Cursor(context), Exchange.Limit(context));
        var chicks = await parts.Store.DoAsync(store => store.Chicks(), context.RequestAborted);
        var rest = chicks.Where(chick => after is null || string.CompareOrdinal(chick.Code, after) > 0)
            .OrderBy(chick => chick.Code, StringComparer.Ordinal).Take(limit + 1).ToList();
        var items = rest.Take(limit).Select(ChickView.Of).ToList();
        await Exchange.AnswerAsync(context, new ChickPage(items, rest.Count > limit ? Exchange.CursorAt(items[^1].Code) : null), ApiJson.Default.ChickPage);
    }

    private async Task ChickAsync(HttpContext context)
    {
        var code = Exchange.Route(context, "code");
        var chick = await parts.Store.DoAsync(store => store.Chicks().FirstOrDefault(each => each.Code == code), context.RequestAborted);
        await Exchange.AnswerAsync(context, ChickView.Of(chick ?? throw Unknown(code)), ApiJson.Default.ChickView);
    }

    private async Task ChickRecordAsync(HttpContext context)
    {
        var code = Exchange.Route(context, "code");
        var (today, now) = (parts.Today, parts.Time.GetUtcNow());
        var view = await parts.Store.DoAsync(store =>
        {
            var chick = store.Chicks().FirstOrDefault(each => each.Code == code);
            var weighings = store.WeighingsBack(null, RowsOfChick, code, all: true);
            if (chick is null && weighings.Count == 0)
                return null;
            var (hands, intakes) = (store.HandEntries(code), Intakes(store, now - FeedsOfChick));
            var growth = store.Weighings(code, verdict: Verdict.Accepted).Where(row => row.Milligrams is not null).GroupBy(row => row.Day)
                .Select(day => new DayWeight(day.Key, Gram.Of(day.Last().Milligrams)!.Value, Gram.Of(day.Last().UncertaintyMilligrams)));
            return new ChickRecord(
                chick is null ? null : ChickView.Of(chick), code, chick?.AgeOn(today), [.. growth],
                [.. weighings.Select(row => WeighingView.Of(row, hands))],
                [.. store.Feeds(now - FeedsOfChick).Where(feed => feed.Chick == code).Select(feed => FeedView.Of(feed, intakes))],
                Notes(store, code, now - NotesOfChick),
                [.. parts.Feed.Situation.Findings.Where(finding => finding.Chick == code)]);
        }, context.RequestAborted);
        await Exchange.AnswerAsync(context, view ?? throw Unknown(code), ApiJson.Default.ChickRecord);
    }

    private static Dictionary<Guid, IntakeRow> Intakes(CaptureStore store, DateTimeOffset since) =>
        store.Intakes(since).GroupBy(intake => intake.Feed).ToDictionary(intakes => intakes.Key, intakes => intakes.Last());

    private static List<NoteView> Notes(CaptureStore store, string code, DateTimeOffset since) =>
    [
        .. Sighting.Read(store, code).Where(seen => seen.At >= since).Select(seen => new NoteView(seen.At, seen.Day, seen.Kind)).Reverse(),
    ];

    // The store is held while it is read, not while curves are fitted to what was read.
    private async Task ReferenceAsync(HttpContext context)
    {
        var code = Exchange.Route(context, "code");
        var (chick, growth) = await parts.Store.DoAsync(
            store => (store.Chicks().FirstOrDefault(each => each.Code == code), NurseryGrowth.Read(store)), context.RequestAborted);
        var curve = chick?.Hatched is null ? null : growth.References.Of(chick.Species, without: code);
        var view = curve is null ? new ReferenceView(null, null, []) : ReferenceOfChick.Of(curve);
        await Exchange.AnswerAsync(context, view, ApiJson.Default.ReferenceView);
    }

    private async Task WeighingsAsync(HttpContext context)
    {
        var (cursor, limit) = (Exchange.Cursor(context), Exchange.Limit(context));
        var before = cursor is null ? null : long.TryParse(cursor, NumberStyles.None, CultureInfo.InvariantCulture, out var arrival) ? (long?)arrival : throw Exchange.NotOurs();
        var (chick, from, to) = (Exchange.Query(context, "chick"), Exchange.Day(context, "from"), Exchange.Day(context, "to"));
        var all = Exchange.Query(context, "all") == "true";
        var rows = await parts.Store.DoAsync(store => store.WeighingsBack(before, limit + 1, chick, from, to, all), context.RequestAborted);
        var shown = rows.Take(limit).ToList();
        var next = rows.Count > limit ? Exchange.CursorAt(shown[^1].Arrival.ToString(CultureInfo.InvariantCulture)) : null;
        await Exchange.AnswerAsync(context, new WeighingPage([.. shown.Select(row => WeighingView.Of(row))], next), ApiJson.Default.WeighingPage);
    }

    private async Task FeedsAsync(HttpContext context)
    {
        var (cursor, limit) = (Exchange.Cursor(context), Exchange.Limit(context));
        var from = Exchange.Day(context, "from") ?? parts.Today;
        var chick = Exchange.Query(context, "chick");
        // A nursery day may start up to a day after midnight in UTC, or before it.
        var since = new DateTimeOffset(from, TimeOnly.MinValue, TimeSpan.Zero) is var midnight && midnight.UtcTicks > TimeSpan.TicksPerDay ? midnight.AddDays(-1) : midnight;
        var (all, intakes) = await parts.Store.DoAsync(store => (store.Feeds(since), Intakes(store, since)), context.RequestAborted);
        var feeds = all.Where(feed => feed.Day >= from && (chick is null || feed.Chick == chick)).ToList();
        var start = 0;
        if (cursor is not null)
            start = Guid.TryParse(cursor, out var last) && feeds.FindIndex(feed => feed.Id == last) is >= 0 and var place ? place + 1 : throw Exchange.NotOurs();
        var shown = feeds.Skip(start).Take(limit).ToList();
        var next = start + shown.Count < feeds.Count ? Exchange.CursorAt(shown[^1].Id.ToString()) : null;
        await Exchange.AnswerAsync(context, new FeedPage([.. shown.Select(feed => FeedView.Of(feed, intakes))], next), ApiJson.Default.FeedPage);
    }

    private static ProblemException Unknown(string code) =>
        new(404, "unknown-chick", $"Neither the register nor any weighing has the code '{code}'. /api/v1/chicks lists the codes there are.");
}
