using System.Globalization;
using CaptureAgent.Protocol.Scales;
using CsCheck;

namespace CaptureAgent.Protocol.Tests.Scales;

public sealed class MassUnitsTests
{
    // NIST SP 811 (2008), appendix B.8: pound (avoirdupois) 4.535 924 E-01 kg, exactly 0.453 592 37 kg by footnote 22;
    // ounce (avoirdupois) 2.834 952 E+01 g, exactly the 16th part of the pound.
    [Theory]
    [InlineData("1", MassUnit.Gram, "1")]
    [InlineData("1", MassUnit.Kilogram, "1000")]
    [InlineData("1", MassUnit.Milligram, "0.001")]
    [InlineData("1", MassUnit.Pound, "453.59237")]
    [InlineData("1", MassUnit.Ounce, "28.349523125")]
    [InlineData("0.4109", MassUnit.Pound, "186.381104833")]
    [InlineData("-6.575", MassUnit.Ounce, "-186.398114546875")]
    [InlineData("186400", MassUnit.Milligram, "186.4")]
    public void A_value_converts_exactly(string value, MassUnit unit, string grams) => Assert.Equal(
        decimal.Parse(grams, CultureInfo.InvariantCulture), MassUnits.ToGrams(decimal.Parse(value, CultureInfo.InvariantCulture), unit));

    [Fact]
    public void Sixteen_ounces_are_a_pound() =>
        Assert.Equal(MassUnits.GramsPer(MassUnit.Pound), MassUnits.ToGrams(16, MassUnit.Ounce));

    [Fact]
    public void The_longest_value_that_is_taken_converts_without_rounding() =>
        // 99 999 999 999 999 999 times 28 349 523 125, multiplied out as integers.
        Assert.Equal(
            System.Numerics.BigInteger.Parse("99999999999999999", CultureInfo.InvariantCulture) * 28_349_523_125,
            (System.Numerics.BigInteger)(MassUnits.ToGrams(0.99999999999999999m, MassUnit.Ounce) * 100_000_000_000_000_000m * 1_000_000_000m / 1m));

    [Theory]
    [InlineData("1.20", MassUnit.Kilogram, "10")]
    [InlineData("28.40", MassUnit.Gram, "0.01")]
    [InlineData("28", MassUnit.Gram, "1")]
    [InlineData("6.575", MassUnit.Ounce, "0.028349523125")]
    public void The_step_comes_from_the_last_digit_shown(string value, MassUnit unit, string grams) => Assert.Equal(
        decimal.Parse(grams, CultureInfo.InvariantCulture), MassUnits.StepGrams(decimal.Parse(value, CultureInfo.InvariantCulture), unit));

    [Fact]
    public void A_value_without_a_unit_has_no_mass() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MassUnits.ToGrams(1, MassUnit.None));

    [Theory]
    [InlineData(MassUnit.Gram, "g", "G", "gr", "gm", "gms", "grm", "GRM", " g ")]
    [InlineData(MassUnit.Kilogram, "kg", "KG", "Kg")]
    [InlineData(MassUnit.Milligram, "mg", "MG")]
    [InlineData(MassUnit.Ounce, "oz", "OZ")]
    [InlineData(MassUnit.Pound, "lb", "LB", "lbs")]
    [InlineData(MassUnit.None, "ozt", "ct", "dwt", "GN", "t", "tl", "lb:oz", "PCS", "pc", "%", "", "k", "gg", "g g", "\x07", "'", "k\x07")]
    public void Written_units_are_known_or_refused(MassUnit unit, params string[] texts)
    {
        foreach (var text in texts)
        {
            Assert.Equal(unit != MassUnit.None, MassUnits.TryParse(Wire.Bytes(text), out var read));
            Assert.Equal(unit, read);
        }
    }

    [Fact]
    public void Only_the_listed_spellings_are_units()
    {
        string[] known = ["g", "gr", "gm", "gms", "grm", "kg", "mg", "oz", "lb", "lbs"];
        Gen.Byte[0x21, 0x7E].Array[1, 4].Sample(
            text => Assert.Equal(known.Contains(Wire.Text(text), StringComparer.OrdinalIgnoreCase), MassUnits.TryParse(text, out _)),
            iter: 200_000);
    }
}
