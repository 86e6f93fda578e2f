using System.Diagnostics;

namespace CaptureAgent.Simulators.Bluetooth.Bus;

/// <summary>A dbus-daemon of our own, in a folder of its own, on which anyone of this user may own any name. Can be killed and started again at the same address.</summary>
public sealed class PrivateBus : IDisposable
{
    /// <summary>What installs the daemon on Debian and its relatives.</summary>
    public const string InstallLine = "apt-get install dbus-daemon";

    private readonly string folder = Directory.CreateTempSubdirectory("capture-agent-bus-").FullName;
    private Process? daemon;

    public PrivateBus() => Start();

    public static bool IsThere => Environment.GetEnvironmentVariable("PATH")?.Split(':').Any(static place => File.Exists(Path.Combine(place, "dbus-daemon"))) is true;

    public string Address => $"unix:path={Path.Combine(folder, "bus")}";

    /// <summary>As a crash would: no goodbye to anyone.</summary>
    public void Kill()
    {
        daemon?.Kill();
        daemon?.WaitForExit();
        daemon?.Dispose();
        daemon = null;
    }

    public void Start()
    {
        File.Delete(Path.Combine(folder, "bus"));
        var configuration = Path.Combine(folder, "bus.conf");
        File.WriteAllText(configuration, $"""
            <!DOCTYPE busconfig PUBLIC "-//freedesktop//DTD D-Bus Bus Configuration 1.0//EN" "http://www.freedesktop.org/standards/dbus/1.0/busconfig.dtd">
            <busconfig>
              <listen>{Address}</listen>
              <auth>EXTERNAL</auth>
              <policy context="default">
                <allow user="*"/><allow own="*"/><allow send_destination="*" eavesdrop="false"/><allow receive_sender="*"/>
              </policy>
            </busconfig>
            """);
        daemon = Process.Start(new ProcessStartInfo("dbus-daemon", ["--nofork", "--print-address", $"--config-file={configuration}"]) { RedirectStandardOutput = true, RedirectStandardError = true })
            ?? throw new InvalidOperationException("dbus-daemon did not start.");
        // It prints its address once it listens.
        if (daemon.StandardOutput.ReadLine() is null)
            throw new InvalidOperationException($"dbus-daemon ended at once; {InstallLine}");
    }

    public void Dispose()
    {
        Kill();
        Directory.Delete(folder, recursive: true);
    }
}
