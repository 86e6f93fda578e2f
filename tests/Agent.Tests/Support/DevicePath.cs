namespace CaptureAgent.Agent.Tests.Support;

/// <summary>A name for a device that stays when the device behind it changes, as those under /dev/serial/by-id/ do.</summary>
internal sealed class DevicePath : IDisposable
{
    private readonly DirectoryInfo directory = Directory.CreateTempSubdirectory("links-");

    public string Path => System.IO.Path.Combine(directory.FullName, "usb-scale");

    public void PointTo(string target)
    {
        Remove();
        File.CreateSymbolicLink(Path, target);
    }

    public void Remove() => File.Delete(Path);

    public void Dispose() => directory.Delete(recursive: true);
}
