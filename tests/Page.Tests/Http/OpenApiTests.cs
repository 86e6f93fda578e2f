using System.Text.Json;
using CaptureAgent.Page.Tests.Support;
using Xunit;

namespace CaptureAgent.Page.Tests.Http;

/// <summary>The document is written by hand; here it is held to what the server does. Structure after the OpenAPI Specification 3.1.</summary>
public sealed class OpenApiTests
{
    [Fact]
    public async Task Every_route_is_in_the_document_and_nothing_else()
    {
        await using var page = await ServedPage.StartAsync();
        using var client = page.Client();
        var document = await ServedPage.GetAsync(client, "/openapi/v1.json");

        var written = document.GetProperty("paths").EnumerateObject()
            .SelectMany(path => path.Value.EnumerateObject().Select(method => $"{method.Name.ToUpperInvariant()} {path.Name}"));
        var served = page.Routes.Where(route => route.Split(' ')[1] is var path && (path.StartsWith("/api/", StringComparison.Ordinal) || path is "/health" or "/metrics"));

        Assert.Equal(served.Order(StringComparer.Ordinal), written.Order(StringComparer.Ordinal));
        Assert.StartsWith("3.1", document.GetProperty("openapi").GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/api/v1/now", "Situation")]
    [InlineData("/api/v1/me", "Me")]
    [InlineData("/api/v1/round", "Round")]
    [InlineData("/api/v1/chicks", "ChickPage")]
    [InlineData("/api/v1/chicks/AM-0147", "Chick")]
    [InlineData("/api/v1/chicks/AM-0147/record", "ChickRecord")]
    [InlineData("/api/v1/chicks/AM-0147/reference", "Reference")]
    [InlineData("/api/v1/labels/sheets", "SheetList")]
    [InlineData("/api/v1/weighings", "WeighingPage")]
    [InlineData("/api/v1/feeds", "FeedPage")]
    [InlineData("/api/v1/instruments", "InstrumentList")]
    [InlineData("/api/v1/batch", "BatchView")]
    [InlineData("/api/v1/paired", "PairedDeviceList")]
    [InlineData("/api/v1/chicks/NO-0000", "Problem")]
    [InlineData("/health", "Health")]
    public async Task An_answer_has_the_fields_of_its_schema(string path, string schema)
    {
        await using var page = await ServedPage.StartAsync();
        page.Tell("AM-0147", 186.4m);
        page.Feed.Write(new Agent.Events.ProbeEvent(page.Time.GetUtcNow(), "probe", 39.8m, 0.2m, true, 39.8m));
        page.Feed.Write(new Agent.Events.FindingEvent(page.Time.GetUtcNow(), "AM-0147", "loss", "red", "It lost 4 %.", 170m, 186m, 180m, 192m));
        page.Feed.Write(new Agent.Events.DueEvent(page.Time.GetUtcNow(), "feed", "AM-0147", page.Time.GetUtcNow(), "AM-0147 is due."));
        page.Store.Add(new Store.FeedRow(Guid.NewGuid(), "AM-0147", page.Time.GetUtcNow(), "Etc/UTC", ServedPage.Day, null, null, "east-room"));
        page.Store.Add(new Store.ObservationRow(Guid.NewGuid(), "AM-0147", page.Time.GetUtcNow(), "Etc/UTC", ServedPage.Day, "active", "east-room"));
        using var client = page.Client();
        var schemas = (await ServedPage.GetAsync(client, "/openapi/v1.json")).GetProperty("components").GetProperty("schemas");
        using var answer = await client.GetAsync(path, TestContext.Current.CancellationToken);
        using var json = JsonDocument.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));

        AssertFits(json.RootElement, schemas.GetProperty(schema), schemas, schema);
    }

    // The part of JSON Schema that the document uses: type, properties, items, enum, $ref and oneOf with null.
    private static void AssertFits(JsonElement value, JsonElement schema, JsonElement schemas, string at)
    {
        if (schema.TryGetProperty("$ref", out var reference))
            schema = schemas.GetProperty(reference.GetString()!.Split('/')[^1]);
        if (schema.TryGetProperty("oneOf", out var either))
        {
            if (value.ValueKind == JsonValueKind.Null)
                return;
            AssertFits(value, either[0], schemas, at);
            return;
        }

        var type = schema.GetProperty("type");
        var types = type.ValueKind == JsonValueKind.Array ? type.EnumerateArray().Select(each => each.GetString()).ToList() : [type.GetString()];
        Assert.True(types.Contains(TypeOf(value)) || (TypeOf(value) == "integer" && types.Contains("number")), $"{at} is {value.GetRawText()}");
        if (schema.TryGetProperty("enum", out var allowed))
            Assert.Contains(value.ToString(), allowed.EnumerateArray().Select(each => each.ToString()));
        if (value.ValueKind == JsonValueKind.Array)
        {
            foreach (var item in value.EnumerateArray())
                AssertFits(item, schema.GetProperty("items"), schemas, $"{at}[]");
        }

        if (value.ValueKind != JsonValueKind.Object)
            return;
        var properties = schema.GetProperty("properties");
        Assert.Equal(properties.EnumerateObject().Select(each => each.Name).Order(StringComparer.Ordinal), value.EnumerateObject().Select(each => each.Name).Order(StringComparer.Ordinal));
        foreach (var each in value.EnumerateObject())
            AssertFits(each.Value, properties.GetProperty(each.Name), schemas, $"{at}.{each.Name}");
    }

    private static string TypeOf(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Object => "object",
        JsonValueKind.Array => "array",
        JsonValueKind.String => "string",
        JsonValueKind.Null => "null",
        JsonValueKind.Number => value.TryGetInt64(out _) ? "integer" : "number",
        _ => "boolean",
    };
}
