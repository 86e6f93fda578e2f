using System.Globalization;
using CaptureAgent.Agent.Answers.Voice;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Labels;
using CaptureAgent.Agent.Page.Guard;
using CaptureAgent.Agent.Page.Serving;
using CaptureAgent.Store;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace CaptureAgent.Agent.Page.Api;

/// <summary>Cards as a PDF to print. For keepers: whoever holds a command card can take a weighing back.</summary>
internal sealed class LabelRoutes(PageParts parts)
{
    public const string Path = "/api/v1/labels";

    private static readonly SemaphoreSlim Drawing = new(1, 1);

    public static void Map(IEndpointRouteBuilder routes, PageParts parts)
    {
        var labels = new LabelRoutes(parts);
        routes.MapGet(Path, labels.PrintAsync);
        routes.MapGet($"{Path}/sheets", labels.SheetsAsync);
    }

    private Task SheetsAsync(HttpContext context)
    {
        var labels = parts.Station.Labels;
        return Exchange.AnswerAsync(context, new SheetList([.. LabelRules.All(labels).Select(sheet => sheet.Name)], labels.Sheet), ApiJson.Default.SheetList);
    }

    private async Task PrintAsync(HttpContext context)
    {
        var order = Order(context);
        var register = order.NeedsRegister ? await parts.Store.DoAsync(store => store.Chicks(), context.RequestAborted) : (IReadOnlyList<Chick>)[];
        byte[] pdf;
        // The library that draws shares its fonts between documents.
        await Drawing.WaitAsync(context.RequestAborted);
        try
        {
            pdf = order.Print(parts.Station, register, parts.Today, parts.Time.GetUtcNow()).Pdf;
        }
        catch (LabelException wrong)
        {
            throw new ProblemException(422, "labels", wrong.Message);
        }
        finally
        {
            Drawing.Release();
        }

        context.Response.ContentType = "application/pdf";
        context.Response.ContentLength = pdf.Length;
        context.Response.Headers.ContentDisposition = "attachment; filename=\"labels.pdf\"";
        context.Response.Headers.CacheControl = "no-store";
        if (!HttpMethods.IsHead(context.Request.Method))
            await context.Response.Body.WriteAsync(pdf, context.RequestAborted);
    }

    private LabelOrder Order(HttpContext context) => new(
        [.. context.Request.Query["chick"].OfType<string>().Where(code => code.Length > 0)], Says(context, "all"), Says(context, "brooders"), Says(context, "cards"),
        Exchange.Query(context, "sheet"), OneOf(context, "symbol", Symbols.Names), Skip(context),
        OneOf(context, "language", SpokenTexts.Languages) ?? parts.Station.Answers.Language);

    private static bool Says(HttpContext context, string name) => Exchange.Query(context, name) == "true";

    private static int Skip(HttpContext context) => Exchange.Query(context, "skip") is not { } text
        ? 0
        : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var skip)
            ? skip
            : throw new ProblemException(400, "query", $"skip is '{text}': must be how many labels are gone from the first sheet, a whole number.");

    private static string? OneOf(HttpContext context, string name, IReadOnlyList<string> allowed) => Exchange.Query(context, name) is not { } text || allowed.Contains(text, StringComparer.Ordinal)
        ? Exchange.Query(context, name)
        : throw new ProblemException(400, "query", $"{name} is '{text}': must be one of {string.Join(", ", allowed)}.");
}
