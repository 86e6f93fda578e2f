using System.Net;
using CaptureAgent.Agent.Labels;
using CaptureAgent.Agent.Tests.Labels;
using CaptureAgent.Page.Tests.Support;
using UglyToad.PdfPig;
using Xunit;

namespace CaptureAgent.Page.Tests.Http;

/// <summary>Cards from the page, printed at 300 dots an inch by poppler and read by zbar and libdmtx.</summary>
public sealed class LabelDownloadTests
{
    [Fact]
    public async Task Cards_of_chicks_brooders_and_commands_are_read_from_the_printed_page()
    {
        await using var page = await ServedPage.StartAsync();
        using var keeper = page.Client(fromAfar: true, await page.PairAsync("keeper", "tablet"));
        using var answer = await keeper.GetAsync("/api/v1/labels?all=true&brooders=true&cards=true&sheet=2x5&language=es", TestContext.Current.CancellationToken);
        var pdf = await answer.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken);

        Assert.Equal("application/pdf", answer.Content.Headers.ContentType?.MediaType);
        Assert.Equal("no-store", answer.Headers.CacheControl?.ToString());
        using var printed = new PrintedSheet(LabelSheet.Usual.Single(sheet => sheet.Name == "2x5"), pdf);
        foreach (var (place, code) in (List<(int, string)>)[(0, "AM-0147"), (1, "CN-0321"), (2, "GR-0096"), (3, "brooder 2"), (4, "!FED"), (6, "!UNDO"), (10, "!ICE")])
            Assert.Equal([$"CODE-128:{code}", $"QR-Code:{code}"], printed.Read(place));
        using var words = PdfDocument.Open(pdf);
        Assert.Contains("veterinario", string.Concat(words.GetPages().Select(each => each.Text)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_chicks_card_with_the_other_symbol_and_labels_that_are_gone()
    {
        await using var page = await ServedPage.StartAsync();
        using var here = page.Client();
        var pdf = await here.GetByteArrayAsync("/api/v1/labels?chick=GR-0096&symbol=data-matrix&sheet=3x8&skip=2", TestContext.Current.CancellationToken);
        using var printed = new PrintedSheet(LabelSheet.Usual.Single(sheet => sheet.Name == "3x8"), pdf);

        Assert.Empty(printed.Read(0));
        Assert.Equal(["CODE-128:GR-0096"], printed.Read(2));
        Assert.Equal(["GR-0096"], printed.ReadDataMatrix(2));
    }

    [Theory]
    [InlineData("?all=true", "look", HttpStatusCode.Forbidden)]
    [InlineData("/sheets", "look", HttpStatusCode.Forbidden)]
    [InlineData("?all=true", null, HttpStatusCode.Unauthorized)]
    [InlineData("", "keeper", HttpStatusCode.UnprocessableContent)]
    [InlineData("?chick=NO-0000", "keeper", HttpStatusCode.UnprocessableContent)]
    [InlineData("?all=true&sheet=9x9", "keeper", HttpStatusCode.UnprocessableContent)]
    [InlineData("?all=true&skip=10", "keeper", HttpStatusCode.UnprocessableContent)]
    [InlineData("?all=true&skip=-1", "keeper", HttpStatusCode.BadRequest)]
    [InlineData("?all=true&symbol=aztec", "keeper", HttpStatusCode.BadRequest)]
    [InlineData("?all=true&language=../../etc/passwd", "keeper", HttpStatusCode.BadRequest)]
    [InlineData("/sheets", "keeper", HttpStatusCode.OK)]
    public async Task Cards_are_for_keepers_and_what_cannot_be_printed_is_said(string query, string? role, HttpStatusCode status)
    {
        await using var page = await ServedPage.StartAsync();
        using var tablet = page.Client(fromAfar: true, role is null ? null : await page.PairAsync(role, "tablet"));

        using var answer = await tablet.GetAsync($"/api/v1/labels{query}", TestContext.Current.CancellationToken);

        Assert.Equal(status, answer.StatusCode);
        if (status != HttpStatusCode.OK)
            Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
    }
}
