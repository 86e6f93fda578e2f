using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Links.Hid;
using Xunit;

namespace CaptureAgent.Agent.Tests.Links.Hid;

public sealed class HidSessionsTests
{
    /// <summary>The descriptor of a boot keyboard as USB HID 1.11, appendix B.1 prints it: it has no report ids.</summary>
    private static readonly byte[] BootKeyboard = Convert.FromHexString(
        "05010906A101050719E029E71500250175019508810295017508810195057501050819012905910295017503910195067508150025650507190029658100C0");

    [Fact]
    public void A_descriptor_without_report_ids_has_none() => Assert.False(ReportDescriptor.HasReportIds(BootKeyboard));

    [Fact]
    public void A_descriptor_with_a_report_id_has_some() =>
        // Usage page 8D (scale), a collection, report id 3 (item 85): USB HID 1.11, 6.2.2.7.
        Assert.True(ReportDescriptor.HasReportIds(Convert.FromHexString("058D0920A1018503750895058102C0")));

    [Fact]
    public void What_looks_like_a_report_id_within_another_items_data_is_none() =>
        Assert.False(ReportDescriptor.HasReportIds(Convert.FromHexString("268503278585030005012685")));

    [Fact]
    public void A_descriptor_that_is_cut_off_is_read_to_its_end() => Assert.False(ReportDescriptor.HasReportIds([0xFE]));

    [Fact]
    public async Task A_device_that_is_no_hid_device_is_refused_and_closed()
    {
        var sessions = new HidSessions(new() { Id = "scale" }, new() { Kind = "hid", Path = "/dev/null" }, TimeProvider.System);
        for (var turn = 0; turn < 2; turn++) // a descriptor left open would make the second try busy
        {
            var refusal = await Assert.ThrowsAsync<LinkException>(() => sessions.OpenAsync(false, TestContext.Current.CancellationToken));
            Assert.Contains("/dev/null is no raw HID device", refusal.Message, StringComparison.Ordinal);
        }
    }
}
