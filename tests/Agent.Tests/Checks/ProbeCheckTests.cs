using CaptureAgent.Agent.Checks;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Store;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Checks;

public sealed class ProbeCheckTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero);

    private readonly string folder = Directory.CreateTempSubdirectory("probe-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Theory]
    [InlineData(0, null, "WARN    probe: never checked: every batch is marked so. Scan !ICE")]
    [InlineData(1, 300, "OK      probe: last check 2026-03-01 09:00 UTC (ice): off by 0.3 °C of 1.0 °C allowed")]
    [InlineData(31, 300, "That was more than 30 days ago")]
    [InlineData(1, 1400, "Do not trust it with formula")]
    public void The_check_says_how_the_probe_stands(int daysAgo, int? error, string said)
    {
        var path = Path.Combine(folder, "capture.db");
        if (error is { } millicelsius)
        {
            using var store = CaptureStore.Open(path, TimeProvider.System);
            store.Add(new ProbeCheckRow(Guid.NewGuid(), Now.AddDays(-daysAgo), "Etc/UTC", "station", "probe", "ice", millicelsius, 0, 1000));
        }

        using var output = new StringWriter();
        var report = new CheckReport(output);
        var station = new StationOptions { Devices = [new DeviceOptions { Id = "probe", Role = "probe" }] };
        ProbeCheck.Look(station, path, new FakeTimeProvider(Now), report);

        Assert.Contains(said, output.ToString(), StringComparison.Ordinal);
        Assert.True(report.IsGood);
    }
}
