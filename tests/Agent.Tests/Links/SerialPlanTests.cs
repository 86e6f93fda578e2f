using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Links.Serial;
using CaptureAgent.Agent.Tests.Support;
using Xunit;

namespace CaptureAgent.Agent.Tests.Links;

public sealed class SerialPlanTests
{
    [Fact]
    public void The_defaults_are_those_of_the_station_file() =>
        Assert.Equal(new(9600, 8, SerialParity.None, 1, SerialFlow.None), SerialSettings.For(new()));

    [Fact]
    public void A_value_that_is_not_allowed_is_refused_with_its_key_and_what_is_allowed()
    {
        (ConnectionOptions Connection, string Text)[] bad =
        [
            (new() { Baud = 0 }, "connection.baud is \"0\"; allowed: 50 to 4000000."),
            (new() { DataBits = 9 }, "connection.dataBits is \"9\"; allowed: 7 or 8."),
            (new() { Parity = "Even" }, "connection.parity is \"Even\"; allowed: none, odd, even, mark or space."),
            (new() { StopBits = 3 }, "connection.stopBits is \"3\"; allowed: 1 or 2."),
            (new() { Flow = "dtr" }, "connection.flow is \"dtr\"; allowed: none, xon-xoff or rts-cts."),
        ];
        Assert.All(bad, one => Assert.Equal(one.Text, Assert.Throws<ArgumentException>(() => SerialSettings.For(one.Connection)).Message));
    }

    [Theory]
    [InlineData("scale", "sign-value", null, 60)]
    [InlineData("scale", "sign-value", 5.0, 30)]
    [InlineData("scale", "request-reply", null, null)]
    [InlineData("scanner", "line", null, null)]
    public void Only_a_device_that_talks_by_itself_is_opened_anew_when_silent(string role, string dialect, double? silentAfter, int? seconds) =>
        Assert.Equal(
            seconds is { } limit ? TimeSpan.FromSeconds(limit) : null,
            Plan(new() { Role = role, Dialect = dialect, SilentAfterSeconds = silentAfter }).ReopenAfter);

    [Theory]
    [InlineData("request-reply", 250, 250)]
    [InlineData("header-comma", 250, null)]
    public void Only_request_reply_is_asked(string dialect, int poll, int? milliseconds) =>
        Assert.Equal(
            milliseconds is { } every ? TimeSpan.FromMilliseconds(every) : null,
            Plan(new() { Role = "scale", Dialect = dialect, PollMilliseconds = poll }).AskEvery);

    [Fact]
    public void A_kind_that_is_not_served_is_refused_and_the_served_ones_are_named()
    {
        var refusal = Assert.Throws<NotSupportedException>(() => Create(new() { Kind = "telepathy", Path = "/dev/null" }));
        Assert.Contains("\"telepathy\"", refusal.Message, StringComparison.Ordinal);
        Assert.EndsWith($"it serves: {string.Join(", ", LinkFactory.Kinds)}.", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_serial_device_without_a_path_or_a_connection_is_refused()
    {
        Assert.Contains("connection.path", Assert.Throws<ArgumentException>(() => Create(new() { Path = " " })).Message, StringComparison.Ordinal);
        Assert.Contains("\"connection\"", Assert.Throws<ArgumentException>(() => Create(null)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_link_carries_its_devices_id() => Assert.Equal("scale", Create(new() { Path = "/dev/null" }).Device);

    private static ILink Create(ConnectionOptions? connection)
    {
        using var factory = new LinkFactory(TimeProvider.System, new ListLogger());
        return factory.Create(new() { Id = "scale", Role = "scale", Connection = connection });
    }

    private static SerialPlan Plan(DeviceOptions device) => SerialPlan.For(device, new() { Path = "/dev/null" });
}
