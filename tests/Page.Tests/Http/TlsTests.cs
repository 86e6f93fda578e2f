using System.Net.Security;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Page.Live;
using CaptureAgent.Agent.Page.Measuring;
using CaptureAgent.Agent.Page.Serving;
using CaptureAgent.Page.Tests.Support;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Page.Tests.Http;

/// <summary>Encryption with a certificate that the agent makes and with the user's; and what becomes of a port or a certificate that cannot be used.</summary>
public sealed class TlsTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("capture-tls-").FullName;
    private readonly int port = FreePort();

    private string SelfMade => Path.Combine(folder, "page-certificate.pem");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_self_made_certificate_is_kept_for_the_agent_alone_and_used_again()
    {
        var first = await ServedCertificateAsync(new PageOptions { Listen = $"https://127.0.0.1:{port}" });
        var again = await ServedCertificateAsync(new PageOptions { Listen = $"https://127.0.0.1:{port}" });

        Assert.Equal(first.Thumbprint, again.Thumbprint);
        using var kept = X509Certificate2.CreateFromPemFile(SelfMade);
        Assert.Equal(Certificates.Fingerprint(kept), Certificates.Fingerprint(first));
        Assert.True(kept.HasPrivateKey);
        if (OperatingSystem.IsLinux())
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(SelfMade));
        // The names that a browser would compare (RFC 6125): this computer and the loopback.
        var names = first.Extensions.OfType<X509SubjectAlternativeNameExtension>().Single();
        Assert.Contains("localhost", names.EnumerateDnsNames());
        Assert.Contains(System.Net.IPAddress.Loopback, names.EnumerateIPAddresses());
        Assert.InRange((first.NotAfter - first.NotBefore).TotalDays, 300, 398);
    }

    [Fact]
    public async Task A_self_made_certificate_that_is_about_to_end_is_made_anew()
    {
        var start = DateTimeOffset.UtcNow;
        var first = await ServedCertificateAsync(new PageOptions { Listen = $"https://127.0.0.1:{port}" }, new FakeTimeProvider(start));
        var later = await ServedCertificateAsync(new PageOptions { Listen = $"https://127.0.0.1:{port}" }, new FakeTimeProvider(start.AddDays(370)));

        Assert.NotEqual(first.Thumbprint, later.Thumbprint);
    }

    [Fact]
    public async Task The_users_certificate_is_served_with_its_key_in_a_file_of_its_own()
    {
        using var key = RSA.Create(2048);
        using var own = new CertificateRequest("CN=nursery.example", key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1).CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(30));
        var (pem, keyPem) = (Path.Combine(folder, "own.pem"), Path.Combine(folder, "own.key"));
        await File.WriteAllTextAsync(pem, own.ExportCertificatePem(), TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(keyPem, key.ExportPkcs8PrivateKeyPem(), TestContext.Current.CancellationToken);

        var served = await ServedCertificateAsync(new PageOptions { Listen = $"https://127.0.0.1:{port}", Certificate = pem, CertificateKey = keyPem });

        Assert.Equal(own.Thumbprint, served.Thumbprint);
        Assert.False(File.Exists(SelfMade));
    }

    [Fact]
    public async Task A_certificate_that_cannot_be_used_is_told_and_the_agent_goes_on()
    {
        var pem = Path.Combine(folder, "broken.pem");
        await File.WriteAllTextAsync(pem, "no certificate", TestContext.Current.CancellationToken);
        await using var page = new Service(folder, new PageOptions { Listen = $"https://127.0.0.1:{port}", Certificate = pem }, TimeProvider.System);

        await page.Page.Spoken;

        Assert.Contains("the certificate cannot be used", page.Page.TakeFault(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_encryption_nothing_is_answered_at_an_encrypted_address()
    {
        await using var page = new Service(folder, new PageOptions { Listen = $"https://127.0.0.1:{port}" }, TimeProvider.System);
        await page.Page.Spoken;
        using var client = new HttpClient();

        await Assert.ThrowsAsync<HttpRequestException>(() => client.GetStringAsync($"http://127.0.0.1:{port}/api/v1/now", TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task A_busy_port_is_told_once_and_taken_when_it_is_free()
    {
        var time = new FakeTimeProvider(DateTimeOffset.UtcNow);
        using var other = new TcpListener(System.Net.IPAddress.Loopback, port);
        other.Start();
        await using var page = new Service(folder, new PageOptions { Listen = $"http://127.0.0.1:{port}" }, time);
        await page.Page.Spoken;
        Assert.Contains("another program uses this port", page.Page.TakeFault(), StringComparison.Ordinal);

        time.Advance(TimeSpan.FromSeconds(15));
        await Task.Delay(300, TestContext.Current.CancellationToken);
        Assert.Null(page.Page.TakeFault());
        other.Stop();
        using var client = new HttpClient { Timeout = TimeSpan.FromSeconds(60) };
        while (true)
        {
            time.Advance(TimeSpan.FromSeconds(15));
            try
            {
                Assert.Contains("east-room", await client.GetStringAsync($"http://127.0.0.1:{port}/health", TestContext.Current.CancellationToken), StringComparison.Ordinal);
                return;
            }
            catch (HttpRequestException)
            {
                await Task.Delay(100, TestContext.Current.CancellationToken);
            }
        }
    }

    private async Task<X509Certificate2> ServedCertificateAsync(PageOptions options, TimeProvider? time = null)
    {
        await using var page = new Service(folder, options, time ?? TimeProvider.System);
        await page.Page.Spoken;
        Assert.Null(page.Page.TakeFault());
        using var client = new TcpClient();
        await client.ConnectAsync(System.Net.IPAddress.Loopback, port, TestContext.Current.CancellationToken);
#pragma warning disable CA5359 // The certificate is what is looked at.
        await using var secure = new SslStream(client.GetStream(), leaveInnerStreamOpen: false, (_, _, _, _) => true);
#pragma warning restore CA5359
        await secure.AuthenticateAsClientAsync(new SslClientAuthenticationOptions { TargetHost = "localhost" }, TestContext.Current.CancellationToken);
        return X509CertificateLoader.LoadCertificate(secure.RemoteCertificate!.Export(X509ContentType.Cert));
    }

    private static int FreePort()
    {
        using var probe = new TcpListener(System.Net.IPAddress.Loopback, 0);
        probe.Start();
        return ((System.Net.IPEndPoint)probe.LocalEndpoint).Port;
    }

    /// <summary>The service as a run has it.</summary>
    private sealed class Service : IAsyncDisposable
    {
        private readonly Scrape metrics = new(Instrumentation.MeterName);
        private readonly CancellationTokenSource stopping = new();
        private readonly Task running;

        public Service(string folder, PageOptions options, TimeProvider time)
        {
            var station = new StationOptions { Station = "east-room", Page = options };
            Page = new PageService(station, Path.Combine(folder, "capture.db"), new EventFeed(new Board(station, "run1", time.GetUtcNow()), "run1"), new LastWords(), metrics, time, NullLoggerFactory.Instance);
            running = Page.RunAsync(stopping.Token);
        }

        public PageService Page { get; }

        public async ValueTask DisposeAsync()
        {
            await stopping.CancelAsync();
            await running;
            metrics.Dispose();
            stopping.Dispose();
        }
    }
}
