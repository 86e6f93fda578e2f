using System.Globalization;
using CaptureAgent.Protocol.Gatt;
using CaptureAgent.Protocol.Scales;

namespace CaptureAgent.Protocol.Tests.Scales;

/// <summary>Weight Scale Service. Vectors: tests of bluetooth-sig-python (RonanB96, test_weight_measurement.py, test_weight_scale_feature.py), which follow the
/// service's specification but for 0xFFFF; the others are worked out from the layout.</summary>
public sealed class WeightMeasurementTests
{
    private static readonly DeviceTime Christmas = new(2023, 12, 25, 14, 30, 45);

    [Fact]
    public void Kilograms_alone() => Assert.Equal(new(70.000m, MassUnit.Kilogram, null, null, null, null), Read("00B036"));

    [Fact]
    public void Pounds_alone() => Assert.Equal(new(157.00m, MassUnit.Pound, null, null, null, null), Read("01543D"));

    [Fact]
    public void The_time_is_the_scale_s_own() => Assert.Equal(new(70m, MassUnit.Kilogram, Christmas, null, null, null), Read("02B036E7070C190E1E2D"));

    [Fact]
    public void User_index_and_height() => Assert.Equal(new(70m, MassUnit.Kilogram, null, 5, 24.5m, 1.750m), Read("0CB03605F500D606"));

    [Fact]
    public void All_fields_in_pounds_and_inches() => Assert.Equal(new(157m, MassUnit.Pound, Christmas, 3, 24.5m, 68.0m), Read("0F543DE7070C190E1E2D03F500A802"));

    [Theory]
    [InlineData("003900", "285")]
    [InlineData("000100", "5")]
    [InlineData("00A509", "12345")]
    [InlineData("F0B036", "70000")]
    [InlineData("00B0360102", "70000")]
    public void Steps_of_five_grams_with_reserved_bits_and_a_tail_ignored(string hex, string grams)
    {
        Assert.Equal(LineFault.None, new WeightMeasurementDecoder().Decode(Convert.FromHexString(hex), out var reading));
        Assert.Equal(decimal.Parse(grams, CultureInfo.InvariantCulture), MassUnits.ToGrams(reading.Value, reading.Unit));
        Assert.Equal(5m, reading.StepGrams(reading.Unit));
        Assert.Equal(Stability.Stable, reading.Stability);
    }

    [Fact]
    public void A_hundredth_of_a_pound_is_the_step_of_pounds()
    {
        _ = new WeightMeasurementDecoder().Decode(Convert.FromHexString("01543D"), out var reading);
        Assert.Equal(4.5359237m, reading.StepGrams(reading.Unit));
    }

    // Weight Scale Service 1.0, 3.2.1 (from memory).
    [Theory]
    [InlineData("00FFFF")]
    [InlineData("01FFFF")]
    [InlineData("02FFFFE7070C190E1E2D")]
    public void A_measurement_that_failed_is_no_weight_of_327_kilograms(string hex) => Refused(hex, LineFault.NoValue);

    [Theory]
    [InlineData("")]
    [InlineData("00")]
    [InlineData("00B0")]
    [InlineData("02B036E707")]
    [InlineData("04B036")]
    [InlineData("08B036F500D6")]
    public void A_frame_shorter_than_its_flags_say_is_refused(string hex) => Refused(hex, LineFault.BadShape);

    [Fact]
    public void A_clock_that_shows_no_time_does_not_cost_the_weight() =>
        Assert.Equal(new(70m, MassUnit.Kilogram, null, null, null, null), Read("02B036E7070D190E1E2D"));

    [Theory]
    [InlineData("00000000", false, false, false, null, null)]
    [InlineData("07000000", true, true, true, null, null)]
    [InlineData("8F000000", true, true, true, "0.5", "0.01")]
    [InlineData("08000000", false, false, false, "0.5", null)]
    [InlineData("38000000", false, false, false, "0.005", null)]
    [InlineData("40000000", false, false, false, null, null)]
    public void The_feature_tells_the_steps(string hex, bool time, bool users, bool index, string? kilograms, string? metres)
    {
        var feature = WeightScaleFeature.Read(Convert.FromHexString(hex))!.Value;
        Assert.Equal((time, users, index), (feature.HasTime, feature.HasUsers, feature.HasBodyMassIndex));
        Assert.Equal((kilograms, metres), (feature.WeightStepKilograms?.ToString(CultureInfo.InvariantCulture), feature.HeightStepMetres?.ToString(CultureInfo.InvariantCulture)));
        Assert.Null(WeightScaleFeature.Read(Convert.FromHexString(hex[..6])));
    }

    private static WeightMeasurement Read(string hex)
    {
        Assert.Equal(LineFault.None, WeightMeasurement.Read(Convert.FromHexString(hex), out var measurement));
        return measurement;
    }

    private static void Refused(string hex, LineFault fault)
    {
        Assert.Equal(fault, new WeightMeasurementDecoder().Decode(Convert.FromHexString(hex), out var reading));
        Assert.Equal(default, reading);
    }
}
