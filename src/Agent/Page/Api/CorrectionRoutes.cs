using CaptureAgent.Agent.Page.Guard;
using CaptureAgent.Agent.Page.Serving;
using CaptureAgent.Store;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace CaptureAgent.Agent.Page.Api;

/// <summary>Correcting and taking back. Rows are only ever added, each with who did it and why.</summary>
internal sealed class CorrectionRoutes(PageParts parts)
{
    private const decimal HeaviestGrams = 1_000_000m;

    public static void Map(IEndpointRouteBuilder routes, PageParts parts)
    {
        var corrections = new CorrectionRoutes(parts);
        routes.MapPost("/api/v1/weighings/{id}/corrections", corrections.CorrectAsync);
        routes.MapPost("/api/v1/weighings/{id}/take-back", context => corrections.TakeBackAsync(context, isFeed: false));
        routes.MapPost("/api/v1/feeds/{id}/take-back", context => corrections.TakeBackAsync(context, isFeed: true));
    }

    private async Task CorrectAsync(HttpContext context)
    {
        var id = Exchange.Id(context);
        var wish = await Exchange.ReadAsync(context, ApiJson.Default.CorrectionWish);
        var (reason, who) = (Exchange.Reason(wish.Reason), Access.Of(context)!.Name);
        if (wish.Grams is not (null or (> 0 and <= HeaviestGrams)))
            throw new ProblemException(422, "grams", "grams must be more than 0 and at most 1,000,000.");
        var added = await parts.Store.DoAsync(store =>
        {
            var row = Corrected(store, Found(store.Weighing(id)), wish);
            return store.Correct(row, who, reason) ? row : throw Gone();
        }, context.RequestAborted);
        parts.Feed.RecordChanged();
        await Exchange.AnswerAsync(context, new Done(added.Id), ApiJson.Default.Done, StatusCodes.Status201Created);
    }

    private WeighingRow Corrected(CaptureStore store, StoredWeighing stored, CorrectionWish wish)
    {
        if (stored.State != WeighingState.Stands)
            throw Gone();
        var old = stored.Row;
        var code = wish.Chick ?? old.Chick ?? throw new ProblemException(422, "chick", "This weighing has no chick: say whose it is, as \"chick\".");
        var chick = store.Chicks().FirstOrDefault(each => each.Code == code)
            ?? throw new ProblemException(422, "unknown-chick", $"The register has no chick '{code}'. Add it first.");
        var milligrams = wish.Grams is { } grams ? (long)decimal.Round(grams * 1000m, MidpointRounding.ToEven) : old.Milligrams;
        if (milligrams is not > 0)
            throw new ProblemException(422, "grams", "This weighing has no weight: give one, as \"grams\".");
        if (store.Weighings(code, old.Day, old.Day, Verdict.Accepted).FirstOrDefault(other => other.Id != old.Id) is { } other)
            throw new ProblemException(409, "day-has-weight", FormattableString.Invariant($"{code} has a weight of that day already, {other.Milligrams / 1000m} g. Correct that one, or take it back first."));
        return old with
        {
            Id = Guid.CreateVersion7(parts.Time.GetUtcNow()),
            Chick = code,
            Milligrams = milligrams,
            // What a hand has typed has no uncertainty that anybody measured.
            UncertaintyMilligrams = wish.Grams is null ? old.UncertaintyMilligrams : null,
            Verdict = Verdict.Accepted,
            Reasons = [],
            Remedy = null,
            AgeDays = old.Day.DayNumber - chick.Hatched?.DayNumber,
            Origin = Origin.Imported,
            Replaces = old.Id,
            Written = null,
        };
    }

    private async Task TakeBackAsync(HttpContext context, bool isFeed)
    {
        var id = Exchange.Id(context);
        var wish = await Exchange.ReadAsync(context, ApiJson.Default.TakeBackWish);
        var (reason, who) = (Exchange.Reason(wish.Reason), Access.Of(context)!.Name);
        var now = parts.Time.GetUtcNow();
        var undo = new UndoRow(Guid.CreateVersion7(now), now, parts.Days.Zone, id, parts.Station.Station);
        await parts.Store.DoAsync(store =>
        {
            if (isFeed ? !store.Feeds(DateTimeOffset.UnixEpoch).Any(feed => feed.Id == id) : Found(store.Weighing(id)).State != WeighingState.Stands)
                throw isFeed ? new ProblemException(404, "not-found", "No feed that stands has this id.") : Gone();
            store.TakeBack(undo, who, reason);
            return true;
        }, context.RequestAborted);
        parts.Feed.RecordChanged();
        await Exchange.AnswerAsync(context, new Done(undo.Id), ApiJson.Default.Done, StatusCodes.Status201Created);
    }

    private static StoredWeighing Found(StoredWeighing? stored) => stored ?? throw new ProblemException(404, "not-found", "No weighing has this id.");

    private static ProblemException Gone() => new(409, "not-standing", "This weighing has been corrected or taken back already. Load the chick again and look at what stands.");
}
