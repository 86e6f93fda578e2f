using System.Globalization;
using CaptureAgent.Simulators.Physics.Scales;

namespace CaptureAgent.Simulators.Instruments.Encoders;

internal static class Digits
{
    /// <summary>Without sign, right-justified: "  186.4".</summary>
    public static string Unsigned(decimal value, int width) => Math.Abs(value).ToString(CultureInfo.InvariantCulture).PadLeft(width);

    public static string Signed(decimal value, int width) => value.ToString(CultureInfo.InvariantCulture).PadLeft(width);

    public static string UnitOf(DisplayUnit unit) => unit switch
    {
        DisplayUnit.Kilogram => "kg",
        DisplayUnit.Ounce => "oz",
        DisplayUnit.Pound => "lb",
        _ => "g",
    };
}
