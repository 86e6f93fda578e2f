using System.Net;
using System.Net.Http.Json;
using System.Text;
using CaptureAgent.Page.Tests.Support;
using CaptureAgent.Store;
using Xunit;

namespace CaptureAgent.Page.Tests.Http;

public sealed class CorrectionTests
{
    [Fact]
    public async Task A_correction_is_a_new_row_that_says_who_and_why()
    {
        await using var page = await ServedPage.StartAsync();
        var row = page.Weigh("AM-0147", 168.4m, ServedPage.Day);
        using var tablet = page.Client(fromAfar: true, await page.PairAsync("keeper", "tablet by the door"));

        await ServedPage.PostAsync(tablet, $"/api/v1/weighings/{row.Id}/corrections", new { grams = 186.4, reason = "digits were exchanged" });

        var record = await ServedPage.GetAsync(tablet, "/api/v1/chicks/AM-0147/record");
        var (newest, old) = (record.GetProperty("weighings")[0], record.GetProperty("weighings")[1]);
        Assert.Equal(186.4m, newest.GetProperty("grams").GetDecimal());
        Assert.Equal("accepted", newest.GetProperty("verdict").GetString());
        Assert.Equal(row.Id, newest.GetProperty("replaces").GetGuid());
        Assert.Equal("tablet by the door", newest.GetProperty("added").GetProperty("who").GetString());
        Assert.Equal("digits were exchanged", newest.GetProperty("added").GetProperty("reason").GetString());
        Assert.Equal("replaced", old.GetProperty("state").GetString());
        Assert.Equal(168.4m, old.GetProperty("grams").GetDecimal());
        Assert.Equal(186.4m, record.GetProperty("growth").EnumerateArray().Last().GetProperty("grams").GetDecimal());
    }

    [Fact]
    public async Task What_is_taken_back_stands_no_more_and_what_it_replaced_stands_again()
    {
        await using var page = await ServedPage.StartAsync();
        var row = page.Weigh("AM-0147", 168.4m, ServedPage.Day);
        using var here = page.Client();
        var correction = (await ServedPage.PostAsync(here, $"/api/v1/weighings/{row.Id}/corrections", new { grams = 186.4, reason = "misread" })).GetProperty("id").GetGuid();

        await ServedPage.PostAsync(here, $"/api/v1/weighings/{correction}/take-back", new { reason = "it was right" });

        var standing = Assert.Single(page.Store.Weighings("AM-0147", ServedPage.Day));
        Assert.Equal(row.Id, standing.Id);
        Assert.Equal(["misread", "it was right"], page.Store.HandEntries("AM-0147").Select(hand => hand.Reason));
        Assert.All(page.Store.HandEntries("AM-0147"), hand => Assert.Equal("station", hand.Who));
    }

    [Fact]
    public async Task A_weighing_without_a_chick_can_be_given_to_one()
    {
        await using var page = await ServedPage.StartAsync();
        var row = page.Weigh(null, 58.7m, ServedPage.Day, Verdict.Rejected, "no-code");
        using var here = page.Client();

        await ServedPage.PostAsync(here, $"/api/v1/weighings/{row.Id}/corrections", new { chick = "CN-0321", reason = "the scanner was off" });

        var given = Assert.Single(page.Store.Weighings("CN-0321", ServedPage.Day));
        Assert.Equal((58_700L, Verdict.Accepted, 18), (given.Milligrams, given.Verdict, given.AgeDays));
    }

    [Fact]
    public async Task A_day_never_gets_two_weights_and_a_row_is_never_corrected_twice()
    {
        await using var page = await ServedPage.StartAsync();
        var accepted = page.Weigh("AM-0147", 186.4m, ServedPage.Day);
        var refused = page.Weigh("AM-0147", 204.9m, ServedPage.Day, Verdict.Rejected, "after-feed");
        using var here = page.Client();
        await ServedPage.PostAsync(here, $"/api/v1/weighings/{accepted.Id}/corrections", new { grams = 186.5, reason = "x" });

        foreach (var id in (Guid[])[refused.Id, accepted.Id])
        {
            using var answer = await here.PostAsJsonAsync($"/api/v1/weighings/{id}/corrections", new { reason = "y" }, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
        }

        Assert.Single(page.Store.Weighings("AM-0147", ServedPage.Day, verdict: Verdict.Accepted));
    }

    [Fact]
    public async Task A_chick_is_changed_only_by_who_has_seen_it_as_it_is()
    {
        await using var page = await ServedPage.StartAsync();
        using var here = page.Client();
        using var seen = await here.GetAsync("/api/v1/chicks/GR-0096", TestContext.Current.CancellationToken);
        var tag = seen.Headers.ETag!.Tag;

        Assert.Equal(HttpStatusCode.OK, await ChangeAsync(here, tag, "brooder 1"));
        Assert.Equal(HttpStatusCode.PreconditionFailed, await ChangeAsync(here, tag, "brooder 9"));

        Assert.Equal("brooder 1", page.Store.Chicks().Single(chick => chick.Code == "GR-0096").Brooder);
        Assert.Equal(2, page.Store.ChickVersions("GR-0096").Count);
    }

    [Fact]
    public async Task An_answer_that_has_not_changed_is_not_sent_again()
    {
        await using var page = await ServedPage.StartAsync();
        using var here = page.Client();
        using var first = await here.GetAsync("/api/v1/round", TestContext.Current.CancellationToken);
        here.DefaultRequestHeaders.TryAddWithoutValidation("If-None-Match", first.Headers.ETag!.Tag);
        using var second = await here.GetAsync("/api/v1/round", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotModified, second.StatusCode);

        page.Weigh("AM-0147", 186.4m, ServedPage.Day);
        using var third = await here.GetAsync("/api/v1/round", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, third.StatusCode);
    }

    [Fact]
    public async Task A_register_is_imported_whole_or_not_at_all()
    {
        await using var page = await ServedPage.StartAsync();
        using var here = page.Client();
        const string Rows = "code,species,hatched\nAM-0501,amazon,2026-02-20\nAM-0502,amazon,2026-02-31\n";
        using var refused = await here.PostAsync("/api/v1/register", new StringContent(Rows, Encoding.UTF8, "text/csv"), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.UnprocessableContent, refused.StatusCode);
        Assert.Contains("row 3", await refused.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Equal(3, page.Store.Chicks().Count);

        using var skipped = await here.PostAsync("/api/v1/register?skipBad=true", new StringContent(Rows, Encoding.UTF8, "text/csv"), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, skipped.StatusCode);
        Assert.Equal("station", Assert.Single(page.Store.HandEntries("AM-0501")).Who);
    }

    [Fact]
    public async Task Paging_gives_every_weighing_once_newest_first()
    {
        await using var page = await ServedPage.StartAsync();
        using var here = page.Client();
        var seen = new List<Guid>();
        for (var cursor = ""; ;)
        {
            var part = await ServedPage.GetAsync(here, $"/api/v1/weighings?limit=2{cursor}");
            seen.AddRange(part.GetProperty("items").EnumerateArray().Select(item => item.GetProperty("id").GetGuid()));
            if (part.GetProperty("next").GetString() is not { } next)
                break;
            cursor = $"&cursor={next}";
        }

        Assert.Equal(page.Store.Weighings().Select(row => row.Id).Reverse(), seen);
    }

    private static async Task<HttpStatusCode> ChangeAsync(HttpClient client, string tag, string brooder)
    {
        using var request = new HttpRequestMessage(HttpMethod.Put, "/api/v1/chicks/GR-0096") { Content = JsonContent.Create(new { brooder, reason = "moved" }) };
        request.Headers.TryAddWithoutValidation("If-Match", tag);
        using var answer = await client.SendAsync(request);
        return answer.StatusCode;
    }
}
