using System.Buffers.Text;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using CaptureAgent.Agent.Page.Guard;
using Microsoft.AspNetCore.Http;

namespace CaptureAgent.Agent.Page.Api;

/// <summary>Reading what a request brings and answering it: JSON, tags, cursors.</summary>
internal static class Exchange
{
    private const int Most = 500, Usual = 100, LongestReason = 500;

    /// <summary>Answers with a tag (RFC 9110, 8.8.3), or with 304 if the client has this very thing.</summary>
    public static Task AnswerAsync<T>(HttpContext context, T value, JsonTypeInfo<T> shape, int status = 200) =>
        AnswerAsync(context, JsonSerializer.SerializeToUtf8Bytes(value, shape), status);

    public static async Task AnswerAsync(HttpContext context, ReadOnlyMemory<byte> json, int status = 200)
    {
        var headers = context.Response.Headers;
        headers.CacheControl = "no-cache";
        headers.ETag = TagOf(json.Span);
        if (status == 200 && Matches(context.Request.Headers.IfNoneMatch, headers.ETag.ToString()))
        {
            context.Response.StatusCode = StatusCodes.Status304NotModified;
            return;
        }

        context.Response.StatusCode = status;
        context.Response.ContentType = "application/json; charset=utf-8";
        context.Response.ContentLength = json.Length;
        if (!HttpMethods.IsHead(context.Request.Method))
            await context.Response.Body.WriteAsync(json, context.RequestAborted);
    }

    public static string TagOf(ReadOnlySpan<byte> content) => $"\"{Base64Url.EncodeToString(SHA256.HashData(content).AsSpan(0, 12))}\"";

    /// <summary>Whether one of the tags of an If-Match or If-None-Match header is this one.</summary>
    public static bool Matches(Microsoft.Extensions.Primitives.StringValues header, string tag) =>
        header.ToString().Split(',', StringSplitOptions.TrimEntries).Any(each => each == "*" || each.Replace("W/", "", StringComparison.Ordinal) == tag);

    /// <exception cref="ProblemException">It is no JSON, or not this.</exception>
    public static async Task<T> ReadAsync<T>(HttpContext context, JsonTypeInfo<T> shape)
    {
        if (!HasType(context.Request, "application/json"))
            throw new ProblemException(415, "content-type", "The body must be JSON, with the header Content-Type: application/json.");
        return await JsonSerializer.DeserializeAsync(context.Request.Body, shape, context.RequestAborted)
            ?? throw new ProblemException(400, "not-json", "The body is null; an object is wanted.");
    }

    public static bool HasType(HttpRequest request, string type) =>
        request.ContentType?.Split(';')[0].Trim().Equals(type, StringComparison.OrdinalIgnoreCase) == true;

    /// <exception cref="ProblemException">There is none, or it is too long.</exception>
    public static string Reason(string? given) => given?.Trim() is { Length: > 0 and <= LongestReason } reason
        ? reason
        : throw new ProblemException(422, "reason", $"Say why, in 1 to {LongestReason} characters, as \"reason\": it stands in the record for ever.");

    public static Guid Id(HttpContext context) => Guid.TryParse(Route(context, "id"), out var id)
        ? id
        : throw new ProblemException(404, "not-found", "The id in the address is no UUID.");

    public static string Route(HttpContext context, string name) => context.Request.RouteValues[name]?.ToString() ?? "";

    public static string? Query(HttpContext context, string name) => context.Request.Query[name].ToString() is { Length: > 0 } text ? text : null;

    public static DateOnly? Day(HttpContext context, string name) => Query(context, name) is not { } text
        ? null
        : DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
            : throw new ProblemException(400, "query", $"{name} is '{text}': must be a date such as 2026-03-02.");

    /// <summary>1 to 500; 100 if not given.</summary>
    public static int Limit(HttpContext context) => Query(context, "limit") is not { } text
        ? Usual
        : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var limit) && limit is > 0 and <= Most
            ? limit
            : throw new ProblemException(400, "query", $"limit is '{text}': must be a whole number from 1 to {Most}.");

    /// <summary>Where the page before ended; null at the start.</summary>
    public static string? Cursor(HttpContext context)
    {
        if (Query(context, "cursor") is not { } text)
            return null;
        Span<byte> bytes = stackalloc byte[256];
        return text.Length <= 256 && Base64Url.IsValid(text) && Base64Url.TryDecodeFromChars(text, bytes, out var length)
            ? Encoding.UTF8.GetString(bytes[..length])
            : throw NotOurs();
    }

    public static string CursorAt(string place) => Base64Url.EncodeToString(Encoding.UTF8.GetBytes(place));

    public static ProblemException NotOurs() => new(400, "query", "cursor is none that was given out as \"next\": start without one.");
}
