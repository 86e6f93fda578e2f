using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using CaptureAgent.Page.Tests.Support;
using Xunit;

namespace CaptureAgent.Page.Tests.Http;

/// <summary>Requests that nobody should send, and what each of them gets. Status codes after RFC 9110 (15.5) and RFC 6585 (428, 429).</summary>
public sealed class RequestTableTests
{
    private const string Json = "application/json";

    [Theory]
    [InlineData("GET", "/api/v1/now", "no-token", 401)]
    [InlineData("GET", "/metrics", "no-token", 401)]
    [InlineData("GET", "/openapi/v1.json", "no-token", 401)]
    [InlineData("GET", "/api/v1/live", "no-token", 401)]
    [InlineData("GET", "/api/v1/events", "no-token", 401)]
    [InlineData("GET", "/api/v1/now", "wrong-token", 401)]
    [InlineData("GET", "/api/v1/now", "long-token", 401)]
    [InlineData("GET", "/", "no-token", 200)]
    [InlineData("GET", "/static/page.js", "no-token", 200)]
    [InlineData("GET", "/health", "no-token", 200)]
    [InlineData("GET", "/api/v1/now", "look", 200)]
    [InlineData("POST", "/api/v1/chicks", "look", 403)]
    [InlineData("POST", "/api/v1/register", "look", 403)]
    [InlineData("POST", "/api/v1/pairing/codes", "look", 403)]
    [InlineData("DELETE", "/api/v1/paired/00000000-0000-0000-0000-000000000000", "look", 403)]
    [InlineData("DELETE", "/api/v1/paired/00000000-0000-0000-0000-000000000000", "keeper", 404)]
    [InlineData("GET", "/api/v1/now", "keeper", 200)]
    [InlineData("GET", "/api/v1/now", "here", 200)]
    [InlineData("GET", "/api/v1/now?token=abc", "no-token", 401)]
    public async Task Each_visitor_gets_what_the_role_allows(string method, string path, string visitor, int status)
    {
        await using var page = await ServedPage.StartAsync();
        var token = visitor switch
        {
            "look" or "keeper" => await page.PairAsync(visitor, "tablet"),
            "wrong-token" => new string('A', 43),
            "long-token" => new string('A', 5000),
            _ => null,
        };
        using var client = page.Client(fromAfar: visitor != "here", token);

        using var answer = await SendAsync(client, method, path, body: method == "POST" ? "{}" : null);

        Assert.Equal(status, (int)answer.StatusCode);
        if (status >= 400)
            await AssertCanBeReadAsync(answer);
    }

    [Theory]
    [InlineData("GET", "/", "evil.example", null, null, 421)]
    [InlineData("GET", "/api/v1/now", "evil.example:8790", null, null, 421)]
    [InlineData("GET", "/api/v1/now", "10.9.8.7", null, null, 421)]
    [InlineData("GET", "/api/v1/now", "127.0.0.1.evil.example", null, null, 421)]
    [InlineData("GET", "/api/v1/now", "localhost", null, null, 200)]
    [InlineData("GET", "/api/v1/now", null, "http://evil.example", null, 403)]
    [InlineData("GET", "/api/v1/live", null, "http://evil.example", null, 403)]
    [InlineData("GET", "/api/v1/now", null, "null", null, 403)]
    [InlineData("POST", "/api/v1/chicks", null, "http://evil.example", null, 403)]
    [InlineData("POST", "/api/v1/chicks", null, "http://127.0.0.1:1", null, 403)]
    [InlineData("POST", "/api/v1/chicks", null, null, "cross-site", 403)]
    [InlineData("GET", "/api/v1/now", null, null, "cross-site", 403)]
    [InlineData("GET", "/round", null, null, "cross-site", 200)]
    public async Task A_foreign_host_or_origin_is_refused(string method, string path, string? host, string? origin, string? site, int status)
    {
        await using var page = await ServedPage.StartAsync();
        using var client = page.Client();
        using var request = new HttpRequestMessage(new HttpMethod(method), path);
        if (method == "POST")
            request.Content = new StringContent("{\"code\":\"AM-9999\"}", Encoding.UTF8, Json);
        if (host is not null)
            request.Headers.Host = host;
        if (origin is not null)
            request.Headers.TryAddWithoutValidation("Origin", origin);
        if (site is not null)
            request.Headers.TryAddWithoutValidation("Sec-Fetch-Site", site);

        using var answer = await client.SendAsync(request, TestContext.Current.CancellationToken);

        Assert.Equal(status, (int)answer.StatusCode);
        Assert.DoesNotContain(page.Store.Chicks(), chick => chick.Code == "AM-9999");
    }

    [Fact]
    public async Task The_pages_own_origin_may_write()
    {
        await using var page = await ServedPage.StartAsync();
        using var client = page.Client();
        client.DefaultRequestHeaders.Add("Origin", page.Here);
        client.DefaultRequestHeaders.Add("Sec-Fetch-Site", "same-origin");

        await ServedPage.PostAsync(client, "/api/v1/chicks", new { code = "AM-9999" });

        Assert.Contains(page.Store.Chicks(), chick => chick.Code == "AM-9999");
    }

    [Theory]
    [InlineData("GET", "/static/../../../etc/passwd", null, null, 404)]
    [InlineData("GET", "/static/%2e%2e/%2e%2e/etc/passwd", null, null, 404)]
    [InlineData("GET", "/static/..%2f..%2fetc%2fpasswd", null, null, 404)]
    [InlineData("GET", "/static/page.html", null, null, 404)]
    [InlineData("GET", "/nothing", null, null, 404)]
    [InlineData("DELETE", "/api/v1/now", null, null, 405)]
    [InlineData("GET", "/api/v1/chicks/NO-0000", null, null, 404)]
    [InlineData("GET", "/api/v1/chicks/%00/record", null, null, 400)]
    [InlineData("GET", "/api/v1/chicks/%F0%9F%90%A3/record", null, null, 404)]
    [InlineData("GET", "/api/v1/weighings?limit=0", null, null, 400)]
    [InlineData("GET", "/api/v1/weighings?limit=1e9", null, null, 400)]
    [InlineData("GET", "/api/v1/weighings?cursor=!!", null, null, 400)]
    [InlineData("GET", "/api/v1/weighings?cursor=AAAA", null, null, 400)]
    [InlineData("GET", "/api/v1/weighings?from=yesterday", null, null, 400)]
    [InlineData("GET", "/api/v1/round?day=0001-01-01", null, null, 200)]
    [InlineData("GET", "/api/v1/round?day=9999-12-31", null, null, 200)]
    [InlineData("GET", "/api/v1/feeds?from=0001-01-01", null, null, 200)]
    [InlineData("GET", "/api/v1/weighings?chick=%27%20OR%201%3D1--", null, null, 200)]
    [InlineData("POST", "/api/v1/chicks", "{", Json, 400)]
    [InlineData("POST", "/api/v1/chicks", "null", Json, 400)]
    [InlineData("POST", "/api/v1/chicks", "[]", Json, 400)]
    [InlineData("POST", "/api/v1/chicks", "", Json, 400)]
    [InlineData("POST", "/api/v1/chicks", "{\"code\":\"AM-1\",\"colour\":\"red\"}", Json, 400)]
    [InlineData("POST", "/api/v1/chicks", "{\"code\":\"AM-1\",\"hatched\":\"2026-02-30\"}", Json, 400)]
    [InlineData("POST", "/api/v1/chicks", "{\"code\":\"!FED\"}", Json, 422)]
    [InlineData("POST", "/api/v1/chicks", "{\"code\":\"<script>\"}", Json, 422)]
    [InlineData("POST", "/api/v1/chicks", "{\"code\":\"AM-1\",\"note\":\"a\\u0000b\"}", Json, 422)]
    [InlineData("POST", "/api/v1/chicks", "{\"code\":\"AM-0147\"}", Json, 409)]
    [InlineData("POST", "/api/v1/chicks", "{\"code\":\"AM-1\"}", "text/plain", 415)]
    [InlineData("POST", "/api/v1/chicks", "code=AM-1", "application/x-www-form-urlencoded", 415)]
    [InlineData("PUT", "/api/v1/chicks/AM-0147", "{\"note\":\"x\",\"reason\":\"y\"}", Json, 428)]
    [InlineData("POST", "/api/v1/weighings/not-an-id/take-back", "{\"reason\":\"x\"}", Json, 404)]
    [InlineData("POST", "/api/v1/weighings/00000000-0000-0000-0000-000000000000/take-back", "{\"reason\":\"x\"}", Json, 404)]
    [InlineData("POST", "/api/v1/feeds/00000000-0000-0000-0000-000000000000/take-back", "{\"reason\":\"x\"}", Json, 404)]
    [InlineData("POST", "/api/v1/weighings/00000000-0000-0000-0000-000000000000/corrections", "{\"grams\":1e30,\"reason\":\"x\"}", Json, 400)]
    [InlineData("POST", "/api/v1/weighings/00000000-0000-0000-0000-000000000000/corrections", "{\"grams\":-1,\"reason\":\"x\"}", Json, 422)]
    [InlineData("POST", "/api/v1/register", "nonsense", "text/csv", 422)]
    [InlineData("POST", "/api/v1/register", "code,species,hatched\nAM-0500,amazon,never\n", "text/csv", 422)]
    [InlineData("POST", "/api/v1/pairing", "{\"code\":\"0000-0000\",\"name\":\"x\"}", Json, 403)]
    [InlineData("POST", "/api/v1/pairing", "{\"code\":\"0000-0000\",\"name\":\"\"}", Json, 422)]
    [InlineData("POST", "/api/v1/pairing/codes", "{\"role\":\"owner\"}", Json, 422)]
    public async Task Whatever_is_asked_the_answer_says_what_is_wrong(string method, string path, string? body, string? type, int status)
    {
        await using var page = await ServedPage.StartAsync();
        using var client = page.Client();

        using var answer = await SendAsync(client, method, path, body, type);

        Assert.True(status == (int)answer.StatusCode, $"{(int)answer.StatusCode}: {await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)}");
        if (status >= 400 && answer.Content.Headers.ContentType is not null)
            await AssertCanBeReadAsync(answer);
    }

    [Fact]
    public async Task Bytes_that_are_no_utf8_are_refused_as_a_register()
    {
        await using var page = await ServedPage.StartAsync();
        using var client = page.Client();
        using var content = new ByteArrayContent([(byte)'c', 0xFF, 0xFE, (byte)'\n']);
        content.Headers.ContentType = new("text/csv");

        using var answer = await client.PostAsync("/api/v1/register", content, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.UnprocessableContent, answer.StatusCode);
    }

    [Theory]
    [InlineData("/api/v1/register", true)]
    [InlineData("/api/v1/register", false)]
    [InlineData("/api/v1/chicks", true)]
    [InlineData("/nothing", true)]
    public async Task A_body_above_ten_megabytes_is_too_large(string path, bool lengthIsTold)
    {
        await using var page = await ServedPage.StartAsync();
        using var client = page.Client();
        using var content = new ByteArrayContent(new byte[10_000_001]);
        content.Headers.ContentType = new(path.EndsWith("register", StringComparison.Ordinal) ? "text/csv" : Json);
        using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = content };
        request.Headers.TransferEncodingChunked = !lengthIsTold;

        using var answer = await client.SendAsync(request, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
    }

    [Fact]
    public async Task A_slow_client_holds_nobody_up_and_is_sent_away()
    {
        await using var page = await ServedPage.StartAsync();
        using var slow = new TcpClient();
        await slow.ConnectAsync(IPAddress.Loopback, page.Port, TestContext.Current.CancellationToken);
        await slow.GetStream().WriteAsync("POST /api/v1/chicks HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{"u8.ToArray(), TestContext.Current.CancellationToken);
        using var client = page.Client();

        Assert.Equal("east-room", (await ServedPage.GetAsync(client, "/api/v1/now")).GetProperty("station").GetString());

        using var reader = new StreamReader(slow.GetStream());
        Assert.Equal("HTTP/1.1 408 Request Timeout", await reader.ReadLineAsync(TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Every_answer_forbids_frames_foreign_scripts_and_guessed_types()
    {
        await using var page = await ServedPage.StartAsync();
        using var client = page.Client();
        foreach (var path in (string[])["/", "/static/page.js", "/api/v1/now", "/nothing"])
        {
            using var answer = await client.GetAsync(path, TestContext.Current.CancellationToken);
            var policy = string.Join(' ', answer.Headers.GetValues("Content-Security-Policy"));
            Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
            Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
            Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
            Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
            Assert.False(answer.Headers.Contains("Server"));
            Assert.False(answer.Headers.Contains("Access-Control-Allow-Origin"));
        }
    }

    // As a problem (RFC 9457) whose kind the page has words for.
    private static async Task AssertCanBeReadAsync(HttpResponseMessage answer)
    {
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        using var problem = JsonDocument.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        Assert.Contains($"problem-{problem.RootElement.GetProperty("type").GetString()!.Split(':')[^1]}", PageTexts.In("es").Keys);
    }

    private static Task<HttpResponseMessage> SendAsync(HttpClient client, string method, string path, string? body, string? type = Json)
    {
        // As it is written, and not as a client would tidy it up.
        var uri = new Uri(client.BaseAddress + path.TrimStart('/'), new UriCreationOptions { DangerousDisablePathAndQueryCanonicalization = true });
        var request = new HttpRequestMessage(new HttpMethod(method), uri);
        if (body is not null)
        {
            request.Content = new ByteArrayContent(Encoding.UTF8.GetBytes(body));
            request.Content.Headers.ContentType = new(type!);
        }

        return client.SendAsync(request, TestContext.Current.CancellationToken);
    }
}
