using System.Net;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;

namespace CaptureAgent.Agent.Page.Guard;

/// <summary>Looks at every request before anything else does: its size, the host it names, the page it comes from.</summary>
/// <remarks>
/// A name that is not this station's is refused (DNS rebinding makes a foreign name lead here); so is what another site's page sends
/// (cross-site request forgery: browsers name the origin of every write). Frames are refused by header.
/// </remarks>
internal sealed class Gate(IEnumerable<string> hosts)
{
    /// <summary>Of a request's body, in bytes.</summary>
    public const long LargestBody = 10_000_000;

    private const long LargestRead = 10 * LargestBody;

    private readonly HashSet<string> hosts = new(hosts, StringComparer.OrdinalIgnoreCase);

    public async Task PassAsync(HttpContext context, RequestDelegate next)
    {
        AddHeaders(context.Response.Headers);
        if (context.Request.ContentLength > LargestBody)
            await RefuseAsync(context);
        else if (!IsOurs(context.Request.Host, context.Connection.LocalIpAddress))
            await Problems.WriteAsync(context, Problems.Of(421, "host", "The request names a host that is not this station. Use its address, or list the name at page.hosts in station.json."));
        else if (IsForeign(context.Request))
            await Problems.WriteAsync(context, Problems.Of(403, "origin", "The request comes from a page of another site."));
        else
            await next(context);
    }

    // Whoever sends it is let finish, within limits: a client that is cut off in the middle of its body does not read why.
    private static async Task RefuseAsync(HttpContext context)
    {
        if (context.Request.ContentLength <= LargestRead && context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size)
        {
            size.MaxRequestBodySize = LargestRead;
            await context.Request.Body.CopyToAsync(Stream.Null, context.RequestAborted);
        }

        await Problems.WriteAsync(context, Problems.Of(413, "too-large", Problems.TooLarge));
    }

    private static void AddHeaders(IHeaderDictionary headers)
    {
        headers.ContentSecurityPolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";
        headers.XFrameOptions = "DENY";
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=()";
    }

    private bool IsOurs(HostString host, IPAddress? local)
    {
        if (!host.HasValue)
            return false;
        var name = host.Host.Trim('[', ']');
        if (hosts.Contains(name))
            return true;
        if (local is null)
            return false;
        if (IPAddress.TryParse(name, out var literal))
            return Plain(literal).Equals(Plain(local));
        return IPAddress.IsLoopback(local) && name.Equals("localhost", StringComparison.OrdinalIgnoreCase);
    }

    private static bool IsForeign(HttpRequest request)
    {
        var origin = request.Headers.Origin.ToString();
        if (origin.Length > 0)
            return !origin.Equals($"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase);
        // Without an origin: no browser, or a link. A link may lead to a view, never into the API.
        return request.Headers["Sec-Fetch-Site"].ToString() is "cross-site" or "same-site"
            && (!HttpMethods.IsGet(request.Method) || request.Path.StartsWithSegments("/api"));
    }

    private static IPAddress Plain(IPAddress address) => address.IsIPv4MappedToIPv6 ? address.MapToIPv4() : address;
}
