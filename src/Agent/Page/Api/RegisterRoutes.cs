using System.Text.Json;
using CaptureAgent.Agent.Page.Guard;
using CaptureAgent.Agent.Page.Serving;
using CaptureAgent.Store;
using CaptureAgent.Store.Csv;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace CaptureAgent.Agent.Page.Api;

/// <summary>Adding a chick, changing what is registered of it, importing a register.</summary>
internal sealed class RegisterRoutes(PageParts parts)
{
    private const int LongestText = 200;

    public static void Map(IEndpointRouteBuilder routes, PageParts parts)
    {
        var register = new RegisterRoutes(parts);
        routes.MapPost("/api/v1/chicks", register.AddAsync);
        routes.MapPut("/api/v1/chicks/{code}", register.ChangeAsync);
        routes.MapPost("/api/v1/register", register.ImportAsync);
    }

    private async Task AddAsync(HttpContext context)
    {
        var wish = await Exchange.ReadAsync(context, ApiJson.Default.ChickWish);
        var chick = Chick(wish, wish.Code?.Trim() ?? "");
        var adopted = await WriteAsync(context, chick, wish.Reason ?? "added", known => known is null);
        context.Response.Headers.Location = $"/api/v1/chicks/{Uri.EscapeDataString(chick.Code)}";
        await Exchange.AnswerAsync(
            context,
            new Done(null, adopted ?? throw new ProblemException(409, "chick-exists", $"The register has '{chick.Code}' already. Change it instead, or use another code.")),
            ApiJson.Default.Done, StatusCodes.Status201Created);
    }

    private async Task ChangeAsync(HttpContext context)
    {
        var code = Exchange.Route(context, "code");
        var wish = await Exchange.ReadAsync(context, ApiJson.Default.ChickWish);
        if (wish.Code is not null && wish.Code != code)
            throw new ProblemException(422, "code", "A chick's code cannot be changed: add the chick under the new code, and give the old one the date on which it left.");
        var match = context.Request.Headers.IfMatch;
        if (match.Count == 0)
            throw new ProblemException(428, "if-match", "Send the ETag of the chick as you have it, in the header If-Match, so that nobody's change is lost.");
        var isKnown = false;
        var adopted = await WriteAsync(context, Chick(wish, code), Exchange.Reason(wish.Reason), known =>
        {
            isKnown = known is not null;
            return isKnown && Exchange.Matches(match, Exchange.TagOf(JsonSerializer.SerializeToUtf8Bytes(ChickView.Of(known!), ApiJson.Default.ChickView)));
        });
        if (adopted is null)
        {
            throw isKnown
                ? new ProblemException(412, "changed", "Somebody has changed this chick meanwhile. Load it again.")
                : new ProblemException(404, "unknown-chick", $"The register has no chick '{code}'.");
        }

        await Exchange.AnswerAsync(context, new Done(null, adopted.Value), ApiJson.Default.Done);
    }

    private async Task<int?> WriteAsync(HttpContext context, Chick chick, string reason, Func<Chick?, bool> mayWrite)
    {
        var who = Access.Of(context)!.Name;
        var adopted = await parts.Store.DoAsync(store =>
        {
            if (chick is { Band: { } band, Left: null } && store.Chicks().FirstOrDefault(each => each.Band == band && each.Left is null && each.Code != chick.Code) is { } other)
                throw new ProblemException(422, "band", $"band {band} is the band of {other.Code} too: a band names one chick.");
            return store.Register(chick, who, reason, mayWrite);
        }, context.RequestAborted);
        if (adopted is not null)
            parts.Feed.RecordChanged();
        return adopted;
    }

    private Chick Chick(ChickWish wish, string code)
    {
        var faults = new List<string>();
        if (code.Length == 0)
            faults.Add("code is missing: every chick has one.");
        else if (parts.CodeFault(code) is { } fault)
            faults.Add($"code '{code}' {fault}.");
        if (wish.Left < wish.Hatched)
            faults.Add("left is before the hatching.");
        foreach (var (name, text) in (ReadOnlySpan<(string, string?)>)[("species", wish.Species), ("clutch", wish.Clutch), ("brooder", wish.Brooder), ("band", wish.Band), ("note", wish.Note)])
        {
            if (text?.Length > LongestText || text?.Any(char.IsControl) == true)
                faults.Add($"{name} must be one line of at most {LongestText} characters.");
        }

        return faults.Count == 0
            ? new(code, Text(wish.Species), wish.Hatched, Text(wish.Clutch), Text(wish.Brooder), Text(wish.Band), wish.Left, Text(wish.Note))
            : throw new ProblemException(422, "chick", string.Join(' ', faults), faults);
    }

    private static string? Text(string? text) => text?.Trim() is { Length: > 0 } kept ? kept : null;

    private async Task ImportAsync(HttpContext context)
    {
        if (!Exchange.HasType(context.Request, "text/csv"))
            throw new ProblemException(415, "content-type", "The body must be a CSV file, with the header Content-Type: text/csv.");
        using var body = new MemoryStream();
        await context.Request.Body.CopyToAsync(body, context.RequestAborted);
        body.Position = 0;
        var options = new ImportOptions(parts.Station.Station, parts.Station.TimeZone, Exchange.Query(context, "skipBad") == "true", parts.CodeFault)
        {
            Hand = (Access.Of(context)!.Name, "imported on the page"),
        };
        ImportResult result;
        try
        {
            using var text = CsvImport.OpenText(body);
            result = await parts.Store.DoAsync(store => CsvImport.Register(store, text, options), context.RequestAborted);
        }
        catch (ImportException wrong)
        {
            throw new ProblemException(422, "csv", $"{wrong.Message} {wrong.Remedy}");
        }
        catch (System.Text.DecoderFallbackException)
        {
            throw new ProblemException(422, "csv", "The file is not UTF-8: save it as CSV UTF-8.");
        }

        if (!result.Written)
            throw new ProblemException(422, "csv", "Nothing was imported. Mend these rows, or leave them out with ?skipBad=true.", [.. result.Bad.Select(row => row.ToString())]);
        parts.Feed.RecordChanged();
        await Exchange.AnswerAsync(
            context, new ImportView(true, result.Added, result.Corrected, result.Unchanged, result.Adopted, [.. result.Bad.Select(row => row.ToString())]), ApiJson.Default.ImportView);
    }
}
