using System.Runtime.CompilerServices;
using CaptureAgent.Agent.Configuration;
using Xunit;

namespace CaptureAgent.Agent.Tests.Configuration;

public sealed class SampleStationTests
{
    [Fact]
    public void The_packaged_station_can_be_used_as_it_is()
    {
        var station = StationFile.Load(Path.GetFullPath(Path.Combine(Folder(), "../../../src/Agent/Packaging/station.json")), devicesAreOpened: true);

        Assert.Equal(["scale", "scanner"], station.Devices.Select(device => device.Id));
    }

    private static string Folder([CallerFilePath] string file = "") => Path.GetDirectoryName(file)!;
}
