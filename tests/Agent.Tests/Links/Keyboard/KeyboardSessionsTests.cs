using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Links.Keyboard;
using Xunit;

namespace CaptureAgent.Agent.Tests.Links.Keyboard;

/// <remarks>A keyboard itself is tried in the hardware stage: it takes a kernel with uinput.</remarks>
public sealed class KeyboardSessionsTests
{
    [Fact]
    public async Task A_device_that_is_no_keyboard_is_refused_and_closed()
    {
        var sessions = new KeyboardSessions(new() { Id = "scanner" }, new() { Kind = "keyboard", Path = "/dev/null" }, TimeProvider.System);
        for (var turn = 0; turn < 2; turn++) // a descriptor left open would make the second try busy
        {
            var refusal = await Assert.ThrowsAsync<LinkException>(() => sessions.OpenAsync(false, TestContext.Current.CancellationToken));
            Assert.Contains("/dev/null is no keyboard", refusal.Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_keyboard_without_a_path_is_refused() =>
        Assert.Contains("connection.path", Assert.Throws<ArgumentException>(() => new KeyboardSessions(new() { Id = "scanner" }, new(), TimeProvider.System)).Message, StringComparison.Ordinal);
}
