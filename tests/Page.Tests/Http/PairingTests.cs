using System.Net;
using System.Net.Http.Json;
using CaptureAgent.Agent.Page.Guard;
using CaptureAgent.Page.Tests.Support;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Page.Tests.Http;

public sealed class PairingTests
{
    [Fact]
    public async Task A_code_pairs_one_device_once()
    {
        await using var page = await ServedPage.StartAsync();
        var code = await CodeAsync(page);
        using var afar = page.Client(fromAfar: true);

        Assert.Equal(HttpStatusCode.Created, await TryAsync(afar, $" {code.ToLowerInvariant().Replace("-", " ", StringComparison.Ordinal)}"));
        Assert.Equal(HttpStatusCode.Forbidden, await TryAsync(afar, code));
    }

    [Fact]
    public async Task A_code_holds_for_ten_minutes()
    {
        var time = new FakeTimeProvider(new DateTimeOffset(2026, 3, 2, 6, 0, 0, TimeSpan.Zero));
        await using var page = await ServedPage.StartAsync(time);
        var code = await CodeAsync(page);
        time.Advance(Secrets.CodeTime);
        using var afar = page.Client(fromAfar: true);

        Assert.Equal(HttpStatusCode.Forbidden, await TryAsync(afar, code));
    }

    [Fact]
    public async Task The_sixth_try_within_a_minute_waits()
    {
        var time = new FakeTimeProvider(new DateTimeOffset(2026, 3, 2, 6, 0, 0, TimeSpan.Zero));
        await using var page = await ServedPage.StartAsync(time);
        var code = await CodeAsync(page);
        using var afar = page.Client(fromAfar: true);
        for (var i = 0; i < Attempts.FromOneAddress; i++)
            Assert.Equal(HttpStatusCode.Forbidden, await TryAsync(afar, "0000-0000"));

        Assert.Equal(HttpStatusCode.TooManyRequests, await TryAsync(afar, code));
        time.Advance(Attempts.Window);
        Assert.Equal(HttpStatusCode.Created, await TryAsync(afar, code));
    }

    [Fact]
    public async Task A_token_counts_until_its_device_is_ended()
    {
        await using var page = await ServedPage.StartAsync();
        using var tablet = page.Client(fromAfar: true, await page.PairAsync("keeper", "tablet"));
        var device = (await ServedPage.GetAsync(tablet, "/api/v1/paired")).GetProperty("items")[0];
        using var here = page.Client();

        using var ended = await here.DeleteAsync($"/api/v1/paired/{device.GetProperty("id").GetString()}", TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.OK, ended.StatusCode);
        using var answer = await tablet.GetAsync("/api/v1/now", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
    }

    [Fact]
    public async Task The_cookie_is_for_this_site_alone_and_no_script_reads_it()
    {
        await using var page = await ServedPage.StartAsync();
        using var afar = page.Client(fromAfar: true);
        using var answer = await afar.PostAsJsonAsync("/api/v1/pairing", new { code = await CodeAsync(page), name = "tablet" }, TestContext.Current.CancellationToken);

        var cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"));
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        afar.DefaultRequestHeaders.Add("Cookie", cookie.Split(';')[0]);
        Assert.Equal("tablet", (await ServedPage.GetAsync(afar, "/api/v1/me")).GetProperty("name").GetString());
    }

    private static async Task<string> CodeAsync(ServedPage page)
    {
        using var here = page.Client();
        return (await ServedPage.PostAsync(here, "/api/v1/pairing/codes", new { role = "keeper" })).GetProperty("code").GetString()!;
    }

    private static async Task<HttpStatusCode> TryAsync(HttpClient client, string code)
    {
        using var answer = await client.PostAsJsonAsync("/api/v1/pairing", new { code, name = "tablet" });
        return answer.StatusCode;
    }
}
