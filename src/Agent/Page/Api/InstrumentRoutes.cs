using System.Text.Json;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Page.Guard;
using CaptureAgent.Agent.Page.Live;
using CaptureAgent.Agent.Page.Measuring;
using CaptureAgent.Agent.Page.Serving;
using CaptureAgent.Agent.Trace;
using CaptureAgent.Store;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace CaptureAgent.Agent.Page.Api;

/// <summary>The devices and their health, the batch and its temperatures, who asks.</summary>
internal sealed class InstrumentRoutes(PageParts parts)
{
    private const int ShownBytes = 80, ShownChecks = 5;

    private static readonly TimeSpan ChecksSince = TimeSpan.FromDays(365);

    public static void Map(IEndpointRouteBuilder routes, PageParts parts)
    {
        var instruments = new InstrumentRoutes(parts);
        routes.MapGet("/api/v1/instruments", instruments.ListAsync);
        routes.MapGet("/api/v1/batch", instruments.BatchAsync);
        routes.MapGet("/api/v1/me", instruments.MeAsync);
        routes.MapGet("/health", instruments.HealthAsync);
        routes.MapGet("/metrics", instruments.MetricsAsync);
    }

    private async Task ListAsync(HttpContext context)
    {
        var known = parts.Feed.Situation.Devices.ToDictionary(device => device.Device, StringComparer.Ordinal);
        var since = parts.Time.GetUtcNow() - ChecksSince;
        var checks = await parts.Store.DoAsync(
            store => parts.Station.Devices.Where(device => device.Role == "scale").ToDictionary(device => device.Id, device => store.ScaleChecks(device.Id, since)),
            context.RequestAborted);
        var list = parts.Station.Devices.Select(device => View(device, known.GetValueOrDefault(device.Id), checks.GetValueOrDefault(device.Id) ?? []));
        await Exchange.AnswerAsync(context, new InstrumentList([.. list]), ApiJson.Default.InstrumentList);
    }

    private InstrumentView View(DeviceOptions device, DeviceSituation? state, IReadOnlyList<ScaleCheckRow> checks)
    {
        var words = parts.Words.Of(device.Id);
        return new(
            device.Id, device.Role, device.Dialect, device.Connection is { } connection ? $"{connection.Kind} {connection.Path ?? connection.Address}" : null,
            state?.State ?? "unknown", state?.Since, state?.Detail, state?.Cause, words?.At, words is null ? null : Shown(words),
            [.. checks.TakeLast(ShownChecks).Reverse().Select(check => new CheckView(
                check.At, check.Milligrams / 1000m, check.ExpectedMilligrams / 1000m, check.ErrorMilligrams / 1000m, check.ToleranceMilligrams / 1000m, check.IsWithinTolerance))]);
    }

    private static string Shown(TraceRecord record)
    {
        var bytes = record.Bytes.Span[..Math.Min(record.Bytes.Length, ShownBytes)];
        return record.Source is { } source
            ? $"{source}: {Convert.ToHexStringLower(bytes)}"
            : string.Concat(System.Text.Encoding.Latin1.GetString(bytes).Select(letter => char.IsControl(letter) ? ' ' : letter)).Trim();
    }

    private Task BatchAsync(HttpContext context)
    {
        var temperatures = new List<Temperature>();
        var (after, isMore) = (0L, true);
        while (isMore)
        {
            var (events, _) = parts.Feed.After(after);
            temperatures.AddRange(events.Where(one => one.Name == "probe").Select(Read));
            isMore = events.Count > 0;
            after = isMore ? events[^1].Id : after;
        }

        return Exchange.AnswerAsync(context, new BatchView(parts.Feed.Situation.Batch, temperatures), ApiJson.Default.BatchView);
    }

    private static Temperature Read(NumberedEvent one)
    {
        using var json = JsonDocument.Parse(one.Json);
        var probe = json.RootElement;
        return new(probe.GetProperty("at").GetDateTimeOffset(), probe.GetProperty("celsius").GetDecimal(), probe.GetProperty("settled").GetBoolean());
    }

    private Task MeAsync(HttpContext context)
    {
        var visitor = Access.Of(context);
        return Exchange.AnswerAsync(
            context, new MeView(parts.Station.Station, visitor?.Name, visitor?.Role switch { PageRole.Keeper => "keeper", PageRole.Look => "look", _ => null }, visitor?.IsHere ?? false),
            ApiJson.Default.MeView);
    }

    private Task MetricsAsync(HttpContext context)
    {
        context.Response.ContentType = Scrape.MediaType;
        context.Response.Headers.CacheControl = "no-store";
        return context.Response.WriteAsync(parts.Metrics.ToString(), context.RequestAborted);
    }

    private Task HealthAsync(HttpContext context) =>
        Exchange.AnswerAsync(context, new HealthView("capturing", parts.Station.Station, parts.Feed.Last), ApiJson.Default.HealthView);
}
