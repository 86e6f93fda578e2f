using CaptureAgent.Agent.Feeding.Batches;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding.Batches;

public sealed class CoolingRecordTests
{
    [Theory]
    [InlineData(0.010)]
    [InlineData(0.020)]
    [InlineData(0.040)]
    public void Three_minutes_foretell_when_it_leaves_the_band(double perMinute)
    {
        var record = new CoolingRecord(24, 2);
        double At(double seconds) => 22 + (19 * Math.Exp(-perMinute * seconds / 60));
        for (var t = 0.0; t <= 180; t += 0.5)
            record.Add(1e6 + t, Math.Round(At(t), 1), 0.1);
        var truth = Math.Log(19.0 / 16) / perMinute * 60;
        var forecast = record.Reaches(38, 1e6 + 180)!.Value;
        Assert.InRange(forecast.Seconds + 180, truth - Math.Max(60, 0.1 * truth), truth + Math.Max(60, 0.1 * truth));
        Assert.InRange(truth - 180, forecast.Soonest, forecast.Latest);
    }

    [Fact]
    public void What_is_cold_already_or_will_never_be_has_no_forecast()
    {
        var cold = new CoolingRecord(24, 2);
        cold.Add(0, 37, 0.1);
        Assert.Null(cold.Reaches(38, 0));
        var record = new CoolingRecord(24, 2);
        record.Add(0, 40, 0.1);
        Assert.Null(record.Reaches(20, 0));
        Assert.Null(new CoolingRecord(24, 2).Reaches(38, 0));
    }
}
