using System.Net;
using CaptureAgent.Agent.Page.Serving;
using CaptureAgent.Store;
using Microsoft.AspNetCore.Http;

namespace CaptureAgent.Agent.Page.Guard;

/// <summary>Who asks.</summary>
/// <param name="Name">Stands in every correction.</param>
/// <param name="IsHere">At the station itself.</param>
internal sealed record Visitor(string Name, PageRole Role, bool IsHere);

/// <summary>Lets the station itself do everything, a paired device what its role allows, and everybody else pair.</summary>
internal sealed class Access(PageStore store)
{
    public const string Cookie = "capture-agent-token";

    private static readonly object Key = new();

    private static readonly Visitor Station = new("station", PageRole.Keeper, IsHere: true);

    public async Task PassAsync(HttpContext context, RequestDelegate next)
    {
        if (context.Connection.RemoteIpAddress is { } address && IPAddress.IsLoopback(address))
            context.Items[Key] = Station;
        else if (await FindAsync(context.Request) is { } paired)
            context.Items[Key] = paired;

        var visitor = Of(context);
        if (IsOpen(context.Request) || Allows(visitor, context.Request))
            await next(context);
        else if (visitor is null)
            await Problems.WriteAsync(context, Problems.Of(401, "not-paired", "This device is not paired. Show a code with `capture-agent pair` or on the station's own page, and enter it here."));
        else
            await Problems.WriteAsync(context, Problems.Of(403, "look-only", "This device may look and change nothing. Pair it again as a keeper."));
    }

    /// <summary>Null: nobody that is known.</summary>
    public static Visitor? Of(HttpContext context) => context.Items[Key] as Visitor;

    private async Task<Visitor?> FindAsync(HttpRequest request)
    {
        var token = request.Headers.Authorization.ToString() is { } header && header.StartsWith("Bearer ", StringComparison.OrdinalIgnoreCase)
            ? header[7..].Trim()
            : request.Cookies[Cookie];
        if (token is not { Length: > 0 and <= Secrets.LongestToken })
            return null;
        var hash = Secrets.Hash(token);
        return await store.DoAsync(open => open.PairedDevice(hash), request.HttpContext.RequestAborted) is { } device
            ? new Visitor(device.Name, device.Role, IsHere: false)
            : null;
    }

    // The views and what they are drawn with hold no data; without them nobody could enter a code.
    private static bool IsOpen(HttpRequest request) =>
        !(request.Path.StartsWithSegments("/api") || request.Path.StartsWithSegments("/metrics") || request.Path.StartsWithSegments("/openapi"))
        || (HttpMethods.IsPost(request.Method) && request.Path == "/api/v1/pairing");

    private static bool Allows(Visitor? visitor, HttpRequest request) =>
        visitor is not null && (visitor.Role == PageRole.Keeper
            || ((HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method)) && !request.Path.StartsWithSegments(Api.LabelRoutes.Path)));
}
