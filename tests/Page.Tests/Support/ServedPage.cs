using System.Net;
using System.Net.Http.Json;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Page.Live;
using CaptureAgent.Agent.Page.Measuring;
using CaptureAgent.Agent.Page.Serving;
using CaptureAgent.Store;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using Xunit;

namespace CaptureAgent.Page.Tests.Support;

/// <summary>The real server over a real store, with events that the test tells. Listens on every address of the computer, at a port of its own.</summary>
internal sealed class ServedPage : IAsyncDisposable
{
    public static readonly DateOnly Day = new(2026, 3, 2);

    private readonly string folder = Directory.CreateTempSubdirectory("capture-page-").FullName;
    private readonly CancellationTokenSource stopping = new();
    private readonly Scrape metrics = new(Instrumentation.MeterName);
    private readonly PageStore pageStore;
    private readonly WebApplication app;

    private ServedPage(TimeProvider time)
    {
        Time = time;
        Store = CaptureStore.Open(Path.Combine(folder, "capture.db"), time);
        Feed = new EventFeed(new Board(Station, "run1", time.GetUtcNow()), "run1");
        pageStore = new PageStore(CaptureStore.Open(Path.Combine(folder, "capture.db"), time));
        Parts = new PageParts(Station, pageStore, Feed, new LastWords(), metrics, time, stopping.Token);
        app = PageServer.Build(Parts, new ListenAddress(null, 0, IsSecure: false), null, NullLoggerFactory.Instance);
    }

    public StationOptions Station { get; } = new()
    {
        Station = "east-room",
        Devices =
        [
            new DeviceOptions { Id = "scale", Role = "scale", Dialect = "header-comma", DivisionGrams = 0.1m },
            new DeviceOptions { Id = "probe", Role = "probe", Dialect = "text" },
            new DeviceOptions { Id = "scanner", Role = "scanner", Dialect = "line" },
        ],
    };

    public TimeProvider Time { get; }

    public CaptureStore Store { get; }

    public EventFeed Feed { get; }

    public PageParts Parts { get; }

    public IReadOnlyList<string> Routes =>
    [
        .. app.Services.GetRequiredService<Microsoft.AspNetCore.Routing.EndpointDataSource>().Endpoints.OfType<Microsoft.AspNetCore.Routing.RouteEndpoint>()
            .SelectMany(route => route.Metadata.GetMetadata<Microsoft.AspNetCore.Routing.HttpMethodMetadata>()!.HttpMethods.Select(method => $"{method} {route.RoutePattern.RawText}")),
    ];

    public int Port => new Uri(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First().Replace("[::]", "127.0.0.1", StringComparison.Ordinal)).Port;

    /// <summary>As the station itself sees it.</summary>
    public string Here => $"http://127.0.0.1:{Port}";

    /// <summary>As another computer sees it; null where this one has no address but the loopback.</summary>
    public string? FromAfar => Own() is { } own ? $"http://{own}:{Port}" : null;

    public static async Task<ServedPage> StartAsync(TimeProvider? time = null)
    {
        var page = new ServedPage(time ?? new Microsoft.Extensions.Time.Testing.FakeTimeProvider(new DateTimeOffset(2026, 3, 2, 6, 0, 0, TimeSpan.Zero)));
        await page.app.StartAsync();
        page.Fill();
        return page;
    }

    public HttpClient Client(bool fromAfar = false, string? token = null)
    {
        Assert.SkipWhen(fromAfar && FromAfar is null, "This computer has no network address but the loopback.");
        var client = new HttpClient(new SocketsHttpHandler { UseCookies = false, AllowAutoRedirect = false }) { BaseAddress = new Uri(fromAfar ? FromAfar! : Here), Timeout = TimeSpan.FromMinutes(3) };
        if (token is not null)
            client.DefaultRequestHeaders.Authorization = new("Bearer", token);
        return client;
    }

    /// <summary>Pairs a device, as a person would.</summary>
    public async Task<string> PairAsync(string role, string name)
    {
        using var here = Client();
        var code = await PostAsync(here, "/api/v1/pairing/codes", new { role });
        using var afar = Client(fromAfar: true);
        return (await PostAsync(afar, "/api/v1/pairing", new { code = code.GetProperty("code").GetString(), name })).GetProperty("token").GetString()!;
    }

    public static async Task<JsonElement> PostAsync(HttpClient client, string path, object body)
    {
        using var answer = await client.PostAsJsonAsync(path, body);
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.IsSuccessStatusCode, $"{path}: {(int)answer.StatusCode} {text}");
        return JsonDocument.Parse(text).RootElement;
    }

    public static async Task<JsonElement> GetAsync(HttpClient client, string path) =>
        JsonDocument.Parse(await client.GetStringAsync(path)).RootElement;

    public WeighingRow Weigh(string? chick, decimal grams, DateOnly day, Verdict verdict = Verdict.Accepted, params string[] reasons)
    {
        var at = new DateTimeOffset(day, new TimeOnly(5, 41), TimeSpan.Zero);
        var row = new WeighingRow(
            Guid.NewGuid(), chick, at, "Etc/UTC", day, (long)(grams * 1000), 110, 8200, verdict, reasons, verdict == Verdict.Accepted ? null : "Weigh it again.",
            24, Origin.Captured, "east-room", "scale");
        Store.Add(row, null);
        return row;
    }

    /// <summary>A weighing is told after it is on disk.</summary>
    public void Tell(string chick, decimal grams, string verdict = "accepted", params string[] reasons) => Feed.Write(new WeighingEvent(
        Time.GetUtcNow(), chick, grams, 0.11m, verdict, reasons, verdict == "accepted" ? null : "Take the hand right off the chick and wait for the answer before lifting it.",
        8.2m, 24, "scale")
    {
        GainGrams = 8.9m,
    });

    public async ValueTask DisposeAsync()
    {
        await stopping.CancelAsync();
        await app.StopAsync();
        await app.DisposeAsync();
        pageStore.Dispose();
        Store.Dispose();
        metrics.Dispose();
        stopping.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private void Fill()
    {
        Store.Register(new Chick("AM-0147", "orange-winged amazon", new DateOnly(2026, 2, 6), "amazons A", "brooder 2"));
        Store.Register(new Chick("CN-0321", "conure", new DateOnly(2026, 2, 12)));
        Store.Register(new Chick("GR-0096", "grey", new DateOnly(2026, 2, 1), Note: "crop bra"));
        foreach (var (day, grams) in ((int, decimal)[])[(-5, 142.3m), (-4, 151.0m), (-3, 160.2m), (-2, 168.9m), (-1, 177.5m)])
            Weigh("AM-0147", grams, Day.AddDays(day));
        foreach (var device in (string[])["scale", "scanner", "probe"])
            Feed.Write(new DeviceEvent(Time.GetUtcNow(), device, "up", null));
    }

    private static IPAddress? Own() => NetworkInterface.GetAllNetworkInterfaces()
        .SelectMany(each => each.GetIPProperties().UnicastAddresses).Select(each => each.Address)
        .FirstOrDefault(address => address.AddressFamily == AddressFamily.InterNetwork && !IPAddress.IsLoopback(address));
}
