namespace CaptureAgent.Agent.Feeding.ProbeChecks;

/// <summary>At which temperature water boils.</summary>
internal static class BoilingPoint
{
    private const double HectopascalsAMillimetreOfMercury = 1.333224;

    /// <summary>°C at a height above the sea in metres, in the weather of the standard atmosphere; the weather of a day moves it by up to half a degree.</summary>
    public static double AtAltitude(double metres) => AtPressure(StandardPressure(metres));

    /// <summary>Hectopascals (ISO 2533, standard atmosphere, up to 11,000 m).</summary>
    public static double StandardPressure(double metres) => 1013.25 * Math.Pow(1 - (0.0065 * metres / 288.15), 5.25588);

    /// <summary>°C at a pressure in hectopascals (Antoine's equation for water, 1 to 100 °C, constants of Dortmund's data bank; from memory).</summary>
    public static double AtPressure(double hectopascals) =>
        (1730.63 / (8.07131 - Math.Log10(hectopascals / HectopascalsAMillimetreOfMercury))) - 233.426;
}
