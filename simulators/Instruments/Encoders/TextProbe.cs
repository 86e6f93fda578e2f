using System.Globalization;

namespace CaptureAgent.Simulators.Instruments.Encoders;

/// <summary><c>39.8 C</c>: a temperature as a line of text.</summary>
public static class TextProbe
{
    public static string Encode(decimal celsius) => string.Create(CultureInfo.InvariantCulture, $"{celsius} C\r\n");
}
