using CaptureAgent.Agent.Configuration;

namespace CaptureAgent.Agent.Links.Serial;

/// <summary>All that a serial link needs to know of its device.</summary>
/// <param name="AskEvery">For a scale that speaks only when asked; null: it talks by itself.</param>
/// <param name="ReopenAfter">Silence after which the port is opened anew, in case the adapter hangs; null: silence is normal.</param>
/// <param name="DropsFirstLine">The first line after opening may be half a line, and half a number is a wrong number.</param>
internal sealed record SerialPlan(
    string Device, string Path, SerialSettings Settings, TimeSpan? AskEvery, TimeSpan? ReopenAfter, bool DropsFirstLine)
{
    private const double UsualSilenceSeconds = 10, SilencesBeforeReopening = 6;

    /// <exception cref="ArgumentException">The connection has no path, or a value that is not allowed.</exception>
    public static SerialPlan For(DeviceOptions device, ConnectionOptions connection)
    {
        var path = ConnectionParts.Required(device, connection.Path, "path", "a serial device");
        var scanner = device.Role == "scanner";
        var asked = device.Dialect == "request-reply";
        var silence = TimeSpan.FromSeconds(SilencesBeforeReopening * Math.Max(1, device.SilentAfterSeconds ?? UsualSilenceSeconds));
        return new(
            device.Id,
            path,
            SerialSettings.For(connection),
            asked ? TimeSpan.FromMilliseconds(Math.Max(1, device.PollMilliseconds)) : null,
            scanner || asked ? null : silence,
            // A code cut in half does not match its pattern, and the first scan of the morning must count.
            !scanner);
    }
}
