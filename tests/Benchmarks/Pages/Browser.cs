using System.Net;
using System.Net.Sockets;
using Microsoft.Playwright;

namespace CaptureAgent.Benchmarks.Pages;

/// <summary>Debian's Chromium, without a window, driven by Playwright.</summary>
internal sealed class Browser : IAsyncDisposable
{
    private const int Patience = 120_000;

    private static readonly string[] Places = ["/usr/bin/chromium", "/usr/bin/chromium-browser"];

    private readonly IPlaywright playwright;
    private readonly IBrowser chromium;

    private Browser(IPlaywright playwright, IBrowser chromium) => (this.playwright, this.chromium) = (playwright, chromium);

    public string Version => $"Chromium {chromium.Version}";

    public static async Task<Browser> StartAsync()
    {
        var path = Places.FirstOrDefault(File.Exists)
            ?? throw new InvalidOperationException("No Chromium. Install it: apt-get install -y --no-install-recommends chromium fonts-dejavu-core");
        var playwright = await Playwright.CreateAsync();
        return new(playwright, await playwright.Chromium.LaunchAsync(new() { ExecutablePath = path, Args = ["--no-sandbox", "--disable-gpu"], Timeout = Patience }));
    }

    /// <summary>A page with a cache of its own.</summary>
    public async Task<IPage> NewPageAsync(int width, int height)
    {
        var context = await chromium.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = height }, Locale = "en-GB" });
        var page = await context.NewPageAsync();
        page.SetDefaultTimeout(Patience);
        return page;
    }

    /// <summary>An address of this computer that nobody listens at.</summary>
    public static string FreeAddress()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return $"http://127.0.0.1:{((IPEndPoint)probe.LocalEndpoint).Port}";
    }

    public async ValueTask DisposeAsync()
    {
        await chromium.DisposeAsync();
        playwright.Dispose();
    }
}
