using CaptureAgent.Acceptance.Tests.Bench;
using Xunit;

namespace CaptureAgent.Acceptance.Tests;

/// <summary>Charts and reports need native libraries beside the executable: what is published must draw.</summary>
public sealed class DrawingTests : IDisposable
{
    private readonly Station station = new();

    public void Dispose() => station.Dispose();

    [Fact(Timeout = 600_000)]
    public async Task The_executable_draws_a_chart_and_writes_a_report()
    {
        var register = Path.Combine(station.Folder, "chicks.csv");
        var weights = Path.Combine(station.Folder, "weights.csv");
        await File.WriteAllTextAsync(register, "code,species,hatched\nAM-0147,Ara macao,2026-02-06\n", TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(weights, "chick,date,grams\nAM-0147,2026-02-28,170.0\nAM-0147,2026-03-01,180.2\nAM-0147,2026-03-02,186.4\n", TestContext.Current.CancellationToken);
        Assert.Equal(0, (await station.DoAsync("import", "register", register)).Code);
        Assert.Equal(0, (await station.DoAsync("import", "weights", weights)).Code);

        var chart = Path.Combine(station.Folder, "chart.png");
        var report = Path.Combine(station.Folder, "report.pdf");
        var grown = await station.DoAsync("growth", "AM-0147", "--png", chart);
        var reported = await station.DoAsync("report", "AM-0147", "--output", report);

        Assert.Equal((0, ""), (grown.Code, grown.Error));
        Assert.Equal((0, ""), (reported.Code, reported.Error));
        Assert.Equal([0x89, 0x50, 0x4E, 0x47], (await File.ReadAllBytesAsync(chart, TestContext.Current.CancellationToken))[..4]);
        Assert.Equal("%PDF"u8.ToArray(), (await File.ReadAllBytesAsync(report, TestContext.Current.CancellationToken))[..4]);
    }
}
