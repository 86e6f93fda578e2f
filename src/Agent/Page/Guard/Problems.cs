using System.Text.Json;
using CaptureAgent.Agent.Page.Api;
using CaptureAgent.Store;
using Microsoft.AspNetCore.Http;

namespace CaptureAgent.Agent.Page.Guard;

/// <summary>A problem as RFC 9457 has it. The type is a name of ours: it resolves to nothing.</summary>
/// <param name="Detail">What is wrong, where, what is allowed, what to do.</param>
internal sealed record Problem(string Type, string Title, int Status, string Detail, IReadOnlyList<string>? Faults = null);

/// <summary>Thrown by a handler that cannot do what was asked.</summary>
internal sealed class ProblemException(int status, string kind, string detail, IReadOnlyList<string>? faults = null) : Exception(detail)
{
    public Problem Problem { get; } = Problems.Of(status, kind, detail, faults);
}

/// <summary>Turns whatever goes wrong into a problem: nothing that a client sends is a fault of ours.</summary>
internal static class Problems
{
    public const string MediaType = "application/problem+json";

    public static Problem Of(int status, string kind, string detail, IReadOnlyList<string>? faults = null) =>
        new($"urn:capture-agent:problem:{kind}", Title(status), status, detail, faults);

    public static async Task CatchAsync(HttpContext context, RequestDelegate next)
    {
        try
        {
            await next(context);
            if (context.Response is { StatusCode: >= 400, HasStarted: false, ContentType: null })
                await WriteAsync(context, OfStatus(context.Response.StatusCode));
        }
        catch (OperationCanceledException) when (context.RequestAborted.IsCancellationRequested)
        {
        }
        catch (Exception failure) when (Of(failure) is { } problem && !context.Response.HasStarted)
        {
            await WriteAsync(context, problem);
        }
    }

    public static Task WriteAsync(HttpContext context, Problem problem)
    {
        context.Response.StatusCode = problem.Status;
        context.Response.ContentType = MediaType;
        context.Response.Headers.CacheControl = "no-store";
        return HttpMethods.IsHead(context.Request.Method)
            ? Task.CompletedTask
            : context.Response.Body.WriteAsync(JsonSerializer.SerializeToUtf8Bytes(problem, ApiJson.Default.Problem)).AsTask();
    }

    private static Problem? Of(Exception failure) => failure switch
    {
        ProblemException told => told.Problem,
        BadHttpRequestException bad => Of(bad.StatusCode, bad.StatusCode == 413 ? "too-large" : "bad-request", bad.StatusCode == 413 ? TooLarge : bad.Message),
        JsonException json => Of(400, "not-json", $"The body cannot be read as the JSON that is wanted here: {json.Message}"),
        StoreException store => Of(503, "store", $"{store.Message} {store.Remedy}"),
        ArgumentException rule => Of(422, "rule", rule.Message),
        _ => null,
    };

    public const string TooLarge = "The body is larger than 10 MB. Send a smaller file, or use `capture-agent import`.";

    private static Problem OfStatus(int status) => status switch
    {
        404 => Of(404, "not-found", "There is nothing at this address. /openapi/v1.json lists what there is."),
        405 => Of(405, "method", "This address does not take this method. /openapi/v1.json lists what it takes."),
        _ => Of(status, "refused", "The request was refused."),
    };

    private static string Title(int status) => status switch
    {
        400 => "Bad request",
        401 => "Not paired",
        403 => "Not allowed",
        404 => "Not found",
        405 => "Method not allowed",
        409 => "Conflict",
        412 => "Changed meanwhile",
        413 => "Too large",
        415 => "Wrong kind of content",
        421 => "Wrong host",
        422 => "Cannot be done",
        428 => "Which version?",
        429 => "Too many tries",
        503 => "The store cannot be used",
        _ => "Refused",
    };
}
