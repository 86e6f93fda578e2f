using System.IO.Compression;
using CaptureAgent.Agent.Page.Api;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace CaptureAgent.Agent.Page.Serving;

/// <summary>The page's files, which lie in the executable; compressed once, when they are first asked for.</summary>
internal static class Assets
{
    private const string Prefix = "page/";

    private static readonly string[] Views = ["/", "/round", "/chick/{code}", "/batch", "/instruments", "/register"];

    /// <summary>Every file's name, such as page.css.</summary>
    public static IEnumerable<string> Names { get; } =
        [.. typeof(Assets).Assembly.GetManifestResourceNames().Where(name => name.StartsWith(Prefix, StringComparison.Ordinal)).Select(name => name[Prefix.Length..])];

    public static void Map(IEndpointRouteBuilder routes)
    {
        var page = new Asset("page.html");
        foreach (var view in Views)
            routes.MapGet(view, page.AnswerAsync);
        routes.MapGet("/openapi/v1.json", new Asset("openapi.json").AnswerAsync);
        foreach (var name in Names.Except(["page.html", "openapi.json"]))
            routes.MapGet($"/static/{name}", new Asset(name).AnswerAsync);
    }

    private sealed class Asset(string name)
    {
        private readonly Lazy<(byte[] Plain, byte[] Packed, string Tag)> content = new(() => Load(name));

        public async Task AnswerAsync(HttpContext context)
        {
            var (plain, packed, tag) = content.Value;
            var headers = context.Response.Headers;
            headers.ETag = tag;
            headers.CacheControl = "no-cache";
            headers.Vary = "Accept-Encoding";
            if (Exchange.Matches(context.Request.Headers.IfNoneMatch, tag))
            {
                context.Response.StatusCode = StatusCodes.Status304NotModified;
                return;
            }

            var isPacked = context.Request.Headers.AcceptEncoding.ToString().Contains("gzip", StringComparison.OrdinalIgnoreCase);
            var body = isPacked ? packed : plain;
            if (isPacked)
                headers.ContentEncoding = "gzip";
            context.Response.ContentType = TypeOf(name);
            context.Response.ContentLength = body.Length;
            if (!HttpMethods.IsHead(context.Request.Method))
                await context.Response.Body.WriteAsync(body, context.RequestAborted);
        }
    }

    private static (byte[] Plain, byte[] Packed, string Tag) Load(string name)
    {
        using var resource = typeof(Assets).Assembly.GetManifestResourceStream(Prefix + name)!;
        using var plain = new MemoryStream();
        resource.CopyTo(plain);
        using var packed = new MemoryStream();
        using (var gzip = new GZipStream(packed, CompressionLevel.SmallestSize, leaveOpen: true))
            gzip.Write(plain.GetBuffer(), 0, (int)plain.Length);
        return (plain.ToArray(), packed.ToArray(), Exchange.TagOf(plain.ToArray()));
    }

    private static string TypeOf(string name) => Path.GetExtension(name) switch
    {
        ".html" => "text/html; charset=utf-8",
        ".css" => "text/css; charset=utf-8",
        ".js" => "text/javascript; charset=utf-8",
        ".json" => "application/json; charset=utf-8",
        ".svg" => "image/svg+xml",
        _ => "application/octet-stream",
    };
}
