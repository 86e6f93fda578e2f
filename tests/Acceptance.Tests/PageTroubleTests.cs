using System.Net;
using System.Net.Http.Json;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using System.Text.RegularExpressions;
using CaptureAgent.Acceptance.Tests.Agent;
using CaptureAgent.Acceptance.Tests.Bench;
using Xunit;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>The page of the built agent: a port that is busy, and a device that is paired from the command line.</summary>
public sealed partial class PageTroubleTests
{
    [Fact(Timeout = 600_000)]
    public async Task A_busy_port_is_an_alert_weighing_goes_on_and_the_page_comes_when_the_port_is_free()
    {
        using var station = new Station();
        using var other = new TcpListener(IPAddress.Loopback, 0);
        other.Start();
        var address = $"http://{other.LocalEndpoint}";
        station.Configure($"\"page\": {{ \"listen\": \"{address}\" }}");
        await station.ImportAsync();
        await using var keeper = new Keeper(station);
        await using var agent = new RunningAgent(station.Folder, []);
        await keeper.BeginAsync(agent);
        var alert = Assert.Single(agent.Log.All, one => one.Name == "alert" && one.Text("alert") == "no-page");
        Assert.Contains("another program uses this port", alert.Text("text"), StringComparison.Ordinal);
        Keeper.AssertAccepted(await keeper.WeighAsync(agent, Station.Amazon, 186.4), Station.Amazon, 186.4, within: 0.6);
        // The web server's own account of it is a stack trace, and nothing for a keeper.
        Assert.DoesNotContain("Exception", agent.Errors, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", agent.Errors, StringComparison.Ordinal);

        other.Stop();

        using var client = new HttpClient { BaseAddress = new Uri(address) };
        Assert.Contains("capturing", await UntilServedAsync(client, "/health"), StringComparison.Ordinal);
        Assert.Contains(Station.Amazon, await client.GetStringAsync("/api/v1/now", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Contains("capture_weighings_total", await client.GetStringAsync("/metrics", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Equal(0, (await agent.TerminateAsync()).Code);
    }

    [Fact(Timeout = 600_000)]
    public async Task A_device_is_paired_listed_and_ended_from_the_command_line_while_the_agent_runs()
    {
        var own = NetworkInterface.GetAllNetworkInterfaces().SelectMany(each => each.GetIPProperties().UnicastAddresses).Select(each => each.Address)
            .FirstOrDefault(address => address.AddressFamily == AddressFamily.InterNetwork && !IPAddress.IsLoopback(address));
        Assert.SkipWhen(own is null, "This computer has no network address but the loopback.");
        using var station = new Station();
        var port = FreePort();
        station.Configure($"\"page\": {{ \"listen\": \"http://*:{port}\" }}");
        await station.ImportAsync();
        await using var agent = new RunningAgent(station.Folder, []);
        await agent.ReadyAsync();
        using var tablet = new HttpClient { BaseAddress = new Uri($"http://{own}:{port}") };
        Assert.Equal(HttpStatusCode.Unauthorized, await StatusAsync(tablet));

        var offered = await station.DoAsync("pair", "--look");
        Assert.True(offered.Code == 0, offered.Error);
        using var paired = await tablet.PostAsJsonAsync("/api/v1/pairing", new { code = offered.Lines[0].Trim(), name = "tablet by the door" }, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Created, paired.StatusCode);
        tablet.DefaultRequestHeaders.Add("Cookie", paired.Headers.GetValues("Set-Cookie").Single().Split(';')[0]);
        Assert.Equal(HttpStatusCode.OK, await StatusAsync(tablet));
        using var written = await tablet.PostAsJsonAsync("/api/v1/chicks", new { code = "AM-9999" }, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Forbidden, written.StatusCode);

        var list = await station.DoAsync("pair", "--list");
        var id = Id().Match(list.Lines.Single(line => line.Contains("tablet by the door", StringComparison.Ordinal))).Value;
        Assert.DoesNotContain(offered.Lines[0].Trim(), list.Output, StringComparison.Ordinal);
        Assert.Contains("tablet by the door can use the page no more", (await station.DoAsync("pair", "--end", id[..13])).Output, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Unauthorized, await StatusAsync(tablet));
        var again = await station.DoAsync("pair", "--end", id);
        Assert.Equal(2, again.Code);
        Assert.Contains("pair --list", again.Error, StringComparison.Ordinal);
    }

    private static async Task<HttpStatusCode> StatusAsync(HttpClient client)
    {
        using var answer = await client.GetAsync("/api/v1/now", TestContext.Current.CancellationToken);
        return answer.StatusCode;
    }

    // The agent tries again every fifteen seconds.
    private static async Task<string> UntilServedAsync(HttpClient client, string path)
    {
        for (var tries = 0; ; tries++)
        {
            try
            {
                return await client.GetStringAsync(path, TestContext.Current.CancellationToken);
            }
            catch (HttpRequestException) when (tries < 120)
            {
                await Keeper.WaitAsync(0.5);
            }
        }
    }

    private static int FreePort()
    {
        using var probe = new TcpListener(IPAddress.Any, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }

    [GeneratedRegex("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")]
    private static partial Regex Id();
}
