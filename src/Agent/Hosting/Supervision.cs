using System.Globalization;
using Microsoft.Extensions.Hosting.Systemd;

namespace CaptureAgent.Agent.Hosting;

/// <summary>Tells systemd (sd_notify(3)) that the agent listens, that it lives and that it stops. Does nothing where nobody supervises.</summary>
/// <remarks>
/// Told by the capture loop itself: READY only when the devices have been opened, WATCHDOG only while records are being taken.
/// The hosting package's own lifetime says READY at start, never WATCHDOG, and only where the parent process is named systemd.
/// </remarks>
internal sealed class Supervision(TimeProvider time)
{
    private static readonly ServiceState Alive = new("WATCHDOG=1");

    private readonly SystemdNotifier notifier = new();

    private readonly TimeSpan? period = Period(Environment.GetEnvironmentVariable("WATCHDOG_USEC"));

    private long told;

    public bool IsPresent => notifier.IsEnabled;

    public void Ready() => notifier.Notify(ServiceState.Ready);

    public void Stopping() => notifier.Notify(ServiceState.Stopping);

    /// <summary>Called at least once a second; speaks at half the period that systemd asks for.</summary>
    public void Live()
    {
        if (period is not { } wanted || (told != 0 && time.GetElapsedTime(told) < wanted))
            return;
        told = time.GetTimestamp();
        notifier.Notify(Alive);
    }

    /// <summary>Half of the microseconds in WATCHDOG_USEC; null if it is not a number above 0.</summary>
    internal static TimeSpan? Period(string? microseconds) =>
        long.TryParse(microseconds, NumberStyles.None, CultureInfo.InvariantCulture, out var value) && value > 0 ? TimeSpan.FromMicroseconds(value / 2.0) : null;
}
