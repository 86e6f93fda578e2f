using System.Globalization;
using CaptureAgent.Agent.Page.Guard;
using CaptureAgent.Agent.Page.Serving;
using CaptureAgent.Store;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace CaptureAgent.Agent.Page.Api;

/// <summary>Pairing a device with a code, and ending that.</summary>
internal sealed class PairingRoutes(PageParts parts)
{
    private const int LongestName = 64;

    private static readonly TimeSpan CookieTime = TimeSpan.FromDays(400);

    public static void Map(IEndpointRouteBuilder routes, PageParts parts)
    {
        var pairing = new PairingRoutes(parts);
        routes.MapPost("/api/v1/pairing", pairing.PairAsync);
        routes.MapPost("/api/v1/pairing/codes", pairing.ShowCodeAsync);
        routes.MapGet("/api/v1/paired", pairing.ListAsync);
        routes.MapDelete("/api/v1/paired/{id}", pairing.EndAsync);
    }

    private async Task PairAsync(HttpContext context)
    {
        if (parts.Attempts.Take(context.Connection.RemoteIpAddress?.ToString() ?? "") is { } wait)
        {
            context.Response.Headers.RetryAfter = Math.Ceiling(wait.TotalSeconds).ToString(CultureInfo.InvariantCulture);
            throw new ProblemException(429, "too-many-tries", "Too many codes were tried. Wait a minute, then try again.");
        }

        var wish = await Exchange.ReadAsync(context, ApiJson.Default.PairingWish);
        var name = wish.Name?.Trim() ?? "";
        if (name.Length is 0 or > LongestName || name.Any(char.IsControl))
            throw new ProblemException(422, "name", $"name must be 1 to {LongestName} characters: it stands in every correction that is made with this device.");
        var (code, token) = (Secrets.Plain(wish.Code ?? ""), Secrets.NewToken());
        var device = await parts.Store.DoAsync(store => store.Pair(Secrets.Hash(code), Secrets.Hash(token), name), context.RequestAborted)
            ?? throw new ProblemException(403, "pairing-code", "This code is wrong, used or older than ten minutes. Show a new one with `capture-agent pair`.");
        context.Response.Cookies.Append(Access.Cookie, token, new CookieOptions
        {
            HttpOnly = true,
            SameSite = SameSiteMode.Strict,
            Secure = context.Request.IsHttps,
            MaxAge = CookieTime,
            Path = "/",
        });
        context.Response.Headers.CacheControl = "no-store";
        await Exchange.AnswerAsync(context, new PairedView(device.Id, device.Name, Word(device.Role), token), ApiJson.Default.PairedView, StatusCodes.Status201Created);
    }

    private async Task ShowCodeAsync(HttpContext context)
    {
        var wish = await Exchange.ReadAsync(context, ApiJson.Default.CodeWish);
        var role = wish.Role switch
        {
            "keeper" => PageRole.Keeper,
            "look" => PageRole.Look,
            _ => throw new ProblemException(422, "role", "role must be keeper or look."),
        };
        var (code, row) = PairingOffer.New(role, parts.Time.GetUtcNow());
        await parts.Store.DoAsync(store =>
        {
            store.Add(row);
            return true;
        }, context.RequestAborted);
        await Exchange.AnswerAsync(context, new CodeView(code, Word(role), row.ExpiresAt), ApiJson.Default.CodeView, StatusCodes.Status201Created);
    }

    private async Task ListAsync(HttpContext context)
    {
        var devices = await parts.Store.DoAsync(store => store.PairedDevices(), context.RequestAborted);
        await Exchange.AnswerAsync(context, new DeviceList([.. devices.Select(DeviceView.Of)]), ApiJson.Default.DeviceList);
    }

    private async Task EndAsync(HttpContext context)
    {
        var (id, who) = (Exchange.Id(context), Access.Of(context)!.Name);
        if (!await parts.Store.DoAsync(store => store.EndPairing(id, who), context.RequestAborted))
            throw new ProblemException(404, "not-found", "No device that is paired has this id.");
        await Exchange.AnswerAsync(context, new Done(id), ApiJson.Default.Done);
    }

    private static string Word(PageRole role) => role == PageRole.Keeper ? "keeper" : "look";
}
