using System.Globalization;
using CaptureAgent.Protocol.Encoding;
using CaptureAgent.Protocol.Gatt;
using CaptureAgent.Protocol.Probes;

namespace CaptureAgent.Protocol.Tests.Probes;

/// <summary>Health Thermometer and Environmental Sensing. Vectors: the number 36.4 of the Bluetooth SIG's white paper on transcoding (2.2.1), and of
/// bluetooth-sig-python (test_temperature.py) for 2A6E; its vectors for 2A1C read the exponent with a bias and are wrong. The others are worked out from the layout.</summary>
public sealed class GattTemperatureTests
{
    [Theory]
    [InlineData("006C0100FF", "36.4", "0.1")]
    [InlineData("00420E00FE", "36.50", "0.01")]
    [InlineData("0085FFFFFF", "-12.3", "0.1")]
    [InlineData("00280000000102", "40", "1")]
    [InlineData("F86C0100FF", "36.4", "0.1")]
    public void A_thermometer_s_exponent_is_its_resolution(string hex, string celsius, string step)
    {
        var reading = Thermometer(hex);
        Assert.Equal(celsius, reading.Celsius.ToString(CultureInfo.InvariantCulture));
        Assert.Equal(decimal.Parse(step, CultureInfo.InvariantCulture), reading.ResolutionCelsius);
        Assert.False(reading.IsIntermediate);
    }

    [Fact]
    public void Fahrenheit_converts_exactly() => Assert.Equal(37m, Thermometer("01DA0300FF").Celsius);

    [Fact]
    public void Time_and_type_are_read()
    {
        Assert.Equal(LineFault.None, TemperatureMeasurement.Read(Convert.FromHexString("06720100FFE7070C190E1E2D02"), out var all));
        Assert.Equal((37.0m, new DeviceTime(2023, 12, 25, 14, 30, 45), TemperatureType.Body), (all.Number.Value, all.Time!.Value, all.Type!.Value));
    }

    [Theory]
    [InlineData("00FFFF7F00")]
    [InlineData("0000008000")]
    [InlineData("00FEFF7F00")]
    [InlineData("0002008000")]
    [InlineData("0001008000")]
    [InlineData("00FFFF7FFF")]
    public void A_special_value_is_no_temperature(string hex) => Refused(new TemperatureMeasurementDecoder(false), hex, LineFault.NoValue);

    [Theory]
    [InlineData("")]
    [InlineData("006C0100")]
    [InlineData("026C0100FFE7070C190E1E")]
    [InlineData("046C0100FF")]
    public void A_frame_shorter_than_its_flags_say_is_refused(string hex) => Refused(new TemperatureMeasurementDecoder(false), hex, LineFault.BadShape);

    [Fact]
    public void Below_absolute_zero_there_is_no_temperature() => Refused(new TemperatureMeasurementDecoder(false), "00E8FEFF00", LineFault.BadNumber);

    [Fact]
    public void An_intermediate_temperature_is_marked()
    {
        Assert.Equal(LineFault.None, new TemperatureMeasurementDecoder(isIntermediate: true).Decode(Convert.FromHexString("006C0100FF"), out var reading));
        Assert.True(reading.IsIntermediate);
    }

    [Theory]
    [InlineData("6408", "21.48")]
    [InlineData("18FC", "-10.00")]
    [InlineData("0000", "0.00")]
    [InlineData("0100", "0.01")]
    [InlineData("FF7F", "327.67")]
    [InlineData("4D95", "-273.15")]
    [InlineData("A80E", "37.52")]
    public void Environmental_sensing_counts_hundredths(string hex, string celsius)
    {
        Assert.Equal(LineFault.None, new EnvironmentalTemperature().Decode(Convert.FromHexString(hex), out var reading));
        Assert.Equal((celsius, 0.01m), (reading.Celsius.ToString(CultureInfo.InvariantCulture), reading.ResolutionCelsius));
    }

    [Theory]
    [InlineData("0080", LineFault.NoValue)]
    [InlineData("4C95", LineFault.BadNumber)]
    [InlineData("64", LineFault.BadShape)]
    [InlineData("", LineFault.BadShape)]
    public void What_is_no_temperature_is_refused(string hex, LineFault fault) => Refused(new EnvironmentalTemperature(), hex, fault);

    [Theory]
    [InlineData("0000", 0)]
    [InlineData("3C00", 60)]
    [InlineData("FFFF", 65535)]
    [InlineData("3C", null)]
    public void The_measurement_interval_is_in_seconds(string hex, int? seconds) => Assert.Equal(seconds, MeasurementInterval.Read(Convert.FromHexString(hex)));

    private static ProbeReading Thermometer(string hex)
    {
        Assert.Equal(LineFault.None, new TemperatureMeasurementDecoder(isIntermediate: false).Decode(Convert.FromHexString(hex), out var reading));
        return reading;
    }

    private static void Refused(IProbeDecoder decoder, string hex, LineFault fault)
    {
        Assert.Equal(fault, decoder.Decode(Convert.FromHexString(hex), out var reading));
        Assert.Equal(default, reading);
    }
}
