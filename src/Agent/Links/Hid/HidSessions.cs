using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Links.Devices;

namespace CaptureAgent.Agent.Links.Hid;

/// <summary>A scale that is a USB HID device: each report is a record, with its report id in front.</summary>
internal sealed class HidSessions : ISessionSource
{
    /// <summary>The source of its records.</summary>
    private const string Source = "hid";

    private const int LongestReport = 4096;

    private readonly TimeProvider time;
    private readonly string device, path;

    /// <exception cref="ArgumentException">The connection has no path.</exception>
    public HidSessions(DeviceOptions device, ConnectionOptions connection, TimeProvider time)
    {
        (this.time, this.device) = (time, device.Id);
        path = ConnectionParts.Required(device, connection.Path, "path", "a HID device");
    }

    public Task<ISession> OpenAsync(bool afterSilence, CancellationToken stop)
    {
        var opened = CharacterDevice.Open(path);
        try
        {
            var hasIds = ReportDescriptor.HasReportIds(HidControl.ReadDescriptor(opened));
            return Task.FromResult<ISession>(new DeviceSession(
                opened, LongestReport, (bytes, at, _, records) => records.Add(new(at, device, hasIds ? bytes.ToArray() : [0, .. bytes], Source)), time));
        }
        catch
        {
            opened.Dispose();
            throw;
        }
    }
}
