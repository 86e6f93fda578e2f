using CaptureAgent.Agent.Growth.References;
using Xunit;

namespace CaptureAgent.Agent.Tests.Growth.References;

/// <summary>
/// Rows of the WHO Child Growth Standards, weight-for-age (World Health Organization 2006, tables of L, M and S by month; kilograms), and scores
/// worked out from them by the formulae of Cole and Green 1992 in another program (Python 3, double precision).
/// </summary>
public sealed class LmsTests
{
    private const double FourDecimals = 5e-5;

    private static readonly Lms BoysAtBirth = new(0.3487, 3.3464, 0.14602);
    private static readonly Lms BoysAt1Month = new(0.2297, 4.4709, 0.13395);
    private static readonly Lms BoysAt6Months = new(0.1257, 7.9340, 0.10958);
    private static readonly Lms BoysAt24Months = new(-0.0137, 12.1515, 0.11426);

    [Theory]
    [InlineData(0.3487, 3.3464, 0.14602, new[] { 2.0803, 2.4593, 2.8807, 3.3464, 3.8586, 4.4194, 5.0306 })] // boys at birth
    [InlineData(0.2297, 4.4709, 0.13395, new[] { 2.9328, 3.3909, 3.9022, 4.4709, 5.1014, 5.7983, 6.5664 })] // boys, 1 month
    [InlineData(0.1257, 7.9340, 0.10958, new[] { 5.6714, 6.3530, 7.1051, 7.9340, 8.8462, 9.8488, 10.9494 })] // boys, 6 months
    [InlineData(0.0644, 9.6479, 0.10925, new[] { 6.9274, 7.7422, 8.6461, 9.6479, 10.7575, 11.9857, 13.3442 })] // boys, 12 months
    [InlineData(-0.0137, 12.1515, 0.11426, new[] { 8.6320, 9.6725, 10.8404, 12.1515, 13.6236, 15.2767, 17.1336 })] // boys, 24 months
    [InlineData(0.3809, 3.2322, 0.14171, new[] { 2.0327, 2.3947, 2.7940, 3.2322, 3.7106, 4.2304, 4.7932 })] // girls at birth
    [InlineData(0.1714, 4.1873, 0.13724, new[] { 2.7321, 3.1611, 3.6443, 4.1873, 4.7956, 5.4755, 6.2333 })] // girls, 1 month
    public void The_published_columns_from_minus_three_to_three_standard_deviations_come_out(double l, double m, double s, double[] columns)
    {
        for (var z = -3; z <= 3; z++)
            Assert.Equal(columns[z + 3], new Lms(l, m, s).Value(z), FourDecimals);
    }

    [Fact]
    public void Scores_and_centiles_are_those_worked_out_elsewhere()
    {
        AssertIs(BoysAtBirth, 2.68, -1.463417, 7.1677);
        AssertIs(BoysAtBirth, 3.85, 0.983913, 83.7421);
        AssertIs(BoysAt1Month, 3.58, -1.617397, 5.2896);
        AssertIs(BoysAt6Months, 6.35, -2.004145, 2.2527);
        AssertIs(BoysAt6Months, 9.12, 1.282528, 90.0171);
        AssertIs(BoysAt24Months, 9.72, -1.957017, 2.5173);
        AssertIs(BoysAt24Months, 13.97, 1.219380, 88.8650);
        AssertIs(new Lms(0.1714, 4.1873, 0.13724), 4.82, 1.037806, 85.0320);
        AssertIs(new Lms(0, 100, 0.12), 90, -0.8780042985, 18.9970670533);
    }

    [Fact]
    public void The_third_and_the_ninety_seventh_centile_come_out()
    {
        Assert.Equal(2.5072754839889075, BoysAtBirth.Value(-1.880793608), 1e-9);
        Assert.Equal(4.349896497248681, BoysAtBirth.Value(1.880793608), 1e-9);
    }

    [Fact]
    public void Beyond_three_standard_deviations_the_restricted_score_goes_on_evenly()
    {
        Assert.Equal(-3.985016949488307, BoysAt6Months.RestrictedZ(5), 1e-9);
        Assert.Equal(4.408862021237512, BoysAt6Months.RestrictedZ(12.5), 1e-9);
        Assert.Equal(BoysAt6Months.Z(9.12), BoysAt6Months.RestrictedZ(9.12));
    }

    [Fact]
    public void A_power_near_zero_is_the_logarithm() =>
        Assert.Equal(new Lms(0, 100, 0.12).Z(90), new Lms(1e-8, 100, 0.12).Z(90), 1e-6);

    private static void AssertIs(Lms at, double value, double z, double centile)
    {
        Assert.Equal(z, at.Z(value), 5e-7);
        Assert.Equal(centile / 100, at.Centile(value), 5e-7);
        Assert.Equal(value, at.Value(at.Z(value)), 1e-9);
    }
}
