using System.Text;
using CaptureAgent.Agent.Page.Serving;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;

namespace CaptureAgent.Agent.Page.Api;

/// <summary>One open stream of server-sent events.</summary>
internal sealed class EventStream(HttpContext context, PageParts parts)
{
    private CancellationToken ended;

    /// <summary>What the client has seen last; null: nothing.</summary>
    public string? LastId { get; } = context.Request.Headers["Last-Event-ID"].ToString() is { Length: > 0 and < 100 } id ? id : Exchange.Query(context, "after");

    /// <summary>Asked for with <c>?from=start</c>.</summary>
    public bool WantsAll => Exchange.Query(context, "from") == "start";

    public async Task RunAsync(Func<EventStream, PageParts, Task> send)
    {
        using var looking = parts.Look();
        using var either = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, parts.Stopping);
        ended = either.Token;
        context.Response.ContentType = "text/event-stream";
        context.Response.Headers.CacheControl = "no-store";
        context.Features.Get<IHttpResponseBodyFeature>()?.DisableBuffering();
        try
        {
            // Come back soon: the agent may only have been started anew.
            await context.Response.Body.WriteAsync("retry: 500\n\n"u8.ToArray(), ended);
            await context.Response.Body.FlushAsync(ended);
            await send(this, parts);
        }
        catch (OperationCanceledException) when (ended.IsCancellationRequested)
        {
        }
    }

    /// <param name="json">Without a line's end in it.</param>
    public async Task SendAsync(string? id, string name, ReadOnlyMemory<byte> json)
    {
        var head = Encoding.ASCII.GetBytes($"{(id is null ? "" : $"id: {id}\n")}event: {name}\ndata: ");
        var message = new byte[head.Length + json.Length + 2];
        head.CopyTo(message, 0);
        json.Span.CopyTo(message.AsSpan(head.Length));
        message[^2] = message[^1] = (byte)'\n';
        await context.Response.Body.WriteAsync(message, ended);
        await context.Response.Body.FlushAsync(ended);
    }

    /// <returns>False if the patience was over first.</returns>
    public async Task<bool> WaitAsync(Task change, TimeSpan patience)
    {
        if (change.IsCompleted)
            return true;
        try
        {
            await change.WaitAsync(patience, parts.Time, ended);
            return true;
        }
        catch (TimeoutException)
        {
            return false;
        }
    }
}
