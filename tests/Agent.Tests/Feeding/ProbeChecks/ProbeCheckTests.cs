using CaptureAgent.Agent.Events;
using CaptureAgent.Agent.Feeding.Batches;
using CaptureAgent.Agent.Feeding.ProbeChecks;
using CaptureAgent.Agent.Tests.Feeding.Batches;
using Xunit;

namespace CaptureAgent.Agent.Tests.Feeding.ProbeChecks;

/// <summary>The ice point, the boiling point, and what comes of them.</summary>
public sealed class ProbeCheckTests
{
    // Boiling point of pure water in the standard atmosphere, feet and °F: the table of Anderson and Hamilton, The New High Altitude Cookbook,
    // as reprinted in a chart of a cooks' association (rounded there; half a degree Celsius is allowed).
    [Theory]
    [InlineData(0, 212.0)]
    [InlineData(2000, 208.2)]
    [InlineData(5000, 202.6)]
    [InlineData(7000, 198.7)]
    [InlineData(10000, 194.0)]
    public void Water_boils_by_the_altitude_as_the_table_says(double feet, double fahrenheit) =>
        Assert.Equal((fahrenheit - 32) * 5 / 9, BoilingPoint.AtAltitude(feet * 0.3048), 0.5);

    // ISO 2533 standard atmosphere, table values at 1000 and 3000 m (from memory).
    [Theory]
    [InlineData(0, 1013.25)]
    [InlineData(1000, 898.75)]
    [InlineData(3000, 701.09)]
    public void Pressure_falls_as_the_standard_atmosphere_says(double metres, double hectopascals) =>
        Assert.Equal(hectopascals, BoilingPoint.StandardPressure(metres), 0.2);

    [Theory]
    // NIST SP 811, B.8: F = 1.8 C + 32.
    [InlineData(40, 104)]
    [InlineData(0, 32)]
    [InlineData(100, 212)]
    public void Fahrenheit_is_exact(double celsius, double fahrenheit) => Assert.Equal(fahrenheit, BatchTexts.ToFahrenheit(celsius));

    [Fact]
    public void Texts_speak_the_unit_of_the_house()
    {
        // Published for 39.4 °C beside 103 °F: rounded there.
        Assert.Equal(103, BatchTexts.ToFahrenheit(39.4), 0.1);
        Assert.Equal("102.9 °F", new BatchTexts(fahrenheit: true).Shown(39.4));
        Assert.Equal("39.4 °C", new BatchTexts(fahrenheit: false).Shown(39.4));
    }

    [Fact]
    public void The_ice_point_is_taken_when_the_probe_stands_still_and_later_readings_are_corrected()
    {
        var bench = new Bench().Pass(5).Scan("!ICE").Dip(0.4, 4, coolsBy: 0).Pass(60);
        var check = Assert.Single(bench.Events.OfType<ProbeCheckEvent>());
        Assert.Equal(("ice", 0m, true), (check.Kind, check.ExpectedCelsius, check.Ok));
        Assert.Equal(0.4, (double)check.ErrorCelsius, 0.06);
        Assert.Contains("ice", bench.Events.OfType<ScanEvent>().Single().Text!, StringComparison.Ordinal);

        bench.Out().Pass(60).Dip(40, coolsBy: 0).Pass(60);
        Assert.Equal("in-range", bench.State);
        Assert.Equal(39.6, (double)bench.Batches[^1].Celsius!.Value, 0.1);
        Assert.True(bench.Batches[^1].ProbeChecked);
        Assert.Equal(check.At, bench.Batches[^1].ProbeCheckedAt);
    }

    [Fact]
    public void Every_batch_of_an_unchecked_probe_is_marked()
    {
        var bench = new Bench().Pass(10).Dip(39.8).Pass(60).Out().Pass(90).Dip(41.6, coolsBy: 0).Pass(60);
        Assert.Equal([1, 2], bench.Batches.Select(told => told.Batch).Distinct());
        Assert.All(bench.Batches, told => Assert.Equal((false, null), (told.ProbeChecked, told.ProbeCheckedAt)));
    }

    [Fact]
    public void Boiling_is_corrected_for_the_altitude_and_begins_no_batch()
    {
        var bench = new Bench(options => options.Feeding.Batch.AltitudeMetres = 1500).Pass(5).Scan("!BOIL").Dip(95, 4, coolsBy: 0).Pass(90);
        var check = Assert.Single(bench.Events.OfType<ProbeCheckEvent>());
        Assert.True(check.Ok);
        Assert.Equal(95, (double)check.ExpectedCelsius, 0.3);
    }

    [Fact]
    public void A_probe_out_of_tolerance_is_not_mended_by_a_number()
    {
        var bench = new Bench().Pass(5).Scan("!ICE").Dip(1.8, 4, coolsBy: 0).Pass(60).Out().Pass(60).Dip(40, coolsBy: 0).Pass(60);
        Assert.Contains("probe-out-of-tolerance", bench.Alerts);
        Assert.Equal(40, (double)bench.Batches[^1].Celsius!.Value, 0.1);
        Assert.False(bench.Batches[^1].ProbeChecked);
    }

    [Fact]
    public void A_check_that_nobody_finishes_is_dropped_and_said_so() =>
        Assert.Contains("probe-check-dropped", new Bench().Pass(5).Scan("!ICE").Wait(301).Alerts);

    [Fact]
    public void Without_a_reference_the_card_says_what_is_missing() =>
        Assert.Contains("referenceCelsius", new Bench().Pass(1).Scan("!REFERENCE").Events.OfType<ScanEvent>().Single().Text!, StringComparison.Ordinal);
}
