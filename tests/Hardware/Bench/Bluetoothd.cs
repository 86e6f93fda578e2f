using System.Diagnostics;

namespace CaptureAgent.Hardware.Bench;

/// <summary>The real Bluetooth service, to be killed in mid-round.</summary>
internal sealed class Bluetoothd : IDisposable
{
    private const string Path = "/usr/libexec/bluetooth/bluetoothd";

    private Process? process;

    public void Start() => process = Process.Start(Path, "-n");

    /// <summary>As a crash would.</summary>
    public void Kill()
    {
        process?.Kill();
        process?.WaitForExit();
        process?.Dispose();
        process = null;
    }

    public void Dispose() => Kill();
}
