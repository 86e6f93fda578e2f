using CaptureAgent.Agent.Checks;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Store;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace CaptureAgent.Agent.Tests.Checks;

public sealed class ScaleHistoryTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero);

    private readonly string folder = Directory.CreateTempSubdirectory("scale-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private static ScaleCheckRow Row(double weeksAgo, long errorMilligrams, long uncertainty = 50) => new(
        Guid.NewGuid(), Now.AddDays(-7 * weeksAgo), "Etc/UTC", "station", "scale", 200_000 + errorMilligrams, uncertainty, 200_000, 100);

    [Fact]
    public void Without_checks_there_is_no_history_and_two_tell_nothing_of_spread()
    {
        Assert.Null(ScaleHistory.Of([], Now));
        var history = ScaleHistory.Of([Row(2, 10), Row(1, 20)], Now)!;
        Assert.Equal((20, null, null), (history.Last.ErrorMilligrams, history.RepeatabilityGrams, history.DriftGramsPerWeek));
    }

    [Fact]
    public void Repeatability_is_the_deviation_of_the_last_ten()
    {
        // 1 to 10 mg: variance 55/6; the two before them do not count.
        var history = ScaleHistory.Of([Row(20, 900), Row(19, -900), .. Enumerable.Range(1, 10).Select(i => Row(11 - i, i))], Now)!;
        Assert.Equal(Math.Sqrt(55 / 6.0) / 1000, history.RepeatabilityGrams!.Value, 9);
    }

    [Fact]
    public void Drift_is_the_slope_of_a_straight_line_with_its_standard_error()
    {
        // Weeks -4 to 0, errors 0, 20, 20, 40, 60 mg: by hand slope 14 mg a week, residual sum of squares 120 mg², so that s² = 40 and se = √(40/10) = 2 mg.
        var history = ScaleHistory.Of([Row(4, 0), Row(3, 20), Row(2, 20), Row(1, 40), Row(0, 60)], Now)!;
        Assert.Equal(0.014, history.DriftGramsPerWeek!.Value, 9);
        Assert.Equal(0.002, history.DriftStandardError!.Value, 9);
    }

    [Fact]
    public void An_uncertain_check_weighs_less_and_an_old_one_not_at_all()
    {
        var history = ScaleHistory.Of([Row(9, -800), Row(3, 0), Row(2, 10), Row(1, 20), Row(0.5, 500, uncertainty: 50_000), Row(0, 30)], Now)!;
        Assert.Equal(0.010, history.DriftGramsPerWeek!.Value, 4);
    }

    [Fact]
    public void Checks_at_one_moment_have_no_drift() =>
        Assert.Null(ScaleHistory.Of([Row(1, 0), Row(1, 10), Row(1, 20)], Now)!.DriftGramsPerWeek);

    [Fact]
    public void A_plain_drift_is_told_before_it_leads_out_of_tolerance()
    {
        // By hand: 10.2 mg a week, now at 61 of 100 mg: 3.82 weeks.
        ScaleCheckRow[] drifting = [Row(4, 20), Row(3, 31), Row(2, 39), Row(1, 51), Row(0, 61)];
        Assert.Equal(3.82, ScaleHistory.Of(drifting, Now)!.WeeksLeft!.Value, 0.01);
        Assert.Null(ScaleHistory.Of([.. drifting.Select(row => row with { Milligrams = row.Milligrams - 60 })], Now)!.WeeksLeft);
        Assert.Equal(3.82, ScaleHistory.Of([.. drifting.Select(row => row with { Milligrams = 400_000 - row.Milligrams })], Now)!.WeeksLeft!.Value, 0.01);

        // One division of rounding in four days, or checks that scatter, are no drift.
        Assert.Null(ScaleHistory.Of([Row(0.6, 0), Row(0.4, 0), Row(0.2, 100), Row(0, 100)], Now)!.WeeksLeft);
        Assert.Null(ScaleHistory.Of([Row(4, 0), Row(3, 90), Row(2, -40), Row(1, 80), Row(0, 60)], Now)!.WeeksLeft);
    }

    [Fact]
    public void A_good_last_check_does_not_hide_that_the_ones_before_it_scatter()
    {
        Assert.True(ScaleHistory.Of([Row(5, 0), Row(4, 300), Row(3, -100), Row(2, 300), Row(1, -300), Row(0, 0)], Now)!.Scatters);
        Assert.False(ScaleHistory.Of([Row(5, 0), Row(4, 100), Row(3, 0), Row(2, 100), Row(1, 0), Row(0, 100)], Now)!.Scatters);
        Assert.False(ScaleHistory.Of([Row(0, 900)], Now)!.Scatters);
    }

    [Theory]
    [InlineData("0 300 -100 300 -300 0", "weighed too differently")]
    [InlineData("20 31 39 51 61", "out of tolerance in about 27 days")]
    [InlineData("0 100 0 100 0", "OK      scale")]
    public void The_check_warns_of_what_more_than_one_check_shows(string errors, string said)
    {
        ArgumentNullException.ThrowIfNull(errors);
        var path = Path.Combine(folder, "capture.db");
        using (var store = CaptureStore.Open(path, TimeProvider.System))
        {
            var each = errors.Split(' ').Select(error => long.Parse(error, System.Globalization.CultureInfo.InvariantCulture)).ToList();
            for (var i = 0; i < each.Count; i++)
                store.Add(Row(each.Count - 1 - i, each[i]));
        }

        using var output = new StringWriter();
        var station = new StationOptions { Devices = [new DeviceOptions { Id = "scale", Role = "scale", CheckMassGrams = 200 }] };
        ScaleCheck.Look(station, path, new FakeTimeProvider(Now), new CheckReport(output));
        Assert.Contains(said, output.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(null, 0, null, "NOTE    scale: no check mass")]
    [InlineData(200, 0, null, "WARN    scale: never checked with its mass")]
    [InlineData(200, 1, 40L, "OK      scale: last check 2026-03-01 09:00 UTC: 200.04 g for 200.0 g, off by 0.04 g of 0.1 g allowed")]
    [InlineData(200, 8, 40L, "That was more than 7 days ago.")]
    [InlineData(200, 1, -140L, "Out of tolerance")]
    public void The_check_says_how_the_scale_stands(int? mass, int daysAgo, long? error, string said)
    {
        var path = Path.Combine(folder, "capture.db");
        if (error is { } milligrams)
        {
            using var store = CaptureStore.Open(path, TimeProvider.System);
            store.Add(Row(daysAgo / 7.0, milligrams));
        }

        using var output = new StringWriter();
        var report = new CheckReport(output);
        var station = new StationOptions { Devices = [new DeviceOptions { Id = "scale", Role = "scale", CheckMassGrams = mass }] };
        ScaleCheck.Look(station, path, new FakeTimeProvider(Now), report);

        Assert.Contains(said, output.ToString(), StringComparison.Ordinal);
        Assert.Contains("level it", output.ToString(), StringComparison.Ordinal);
        Assert.True(report.IsGood);
    }
}
