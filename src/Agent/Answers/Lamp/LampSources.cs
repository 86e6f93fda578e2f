using System.Globalization;
using CaptureAgent.Agent.Configuration;
using CaptureAgent.Agent.Links.Serial;

namespace CaptureAgent.Agent.Answers.Lamp;

internal static class LampSources
{
    /// <param name="lamp">Checked.</param>
    /// <returns>Null: there is no lamp.</returns>
    public static ILampSource? Create(LampOptions lamp) => lamp.Kind switch
    {
        "gpio" => new GpioLamps(
            new Dictionary<LampColour, int> { [LampColour.Green] = Line(lamp.Green), [LampColour.Yellow] = Line(lamp.Yellow), [LampColour.Red] = Line(lamp.Red) }, lamp.ActiveLow),
        "serial" => new SerialLamps(
            lamp.Path!, SerialSettings.For(new ConnectionOptions { Baud = lamp.Baud }),
            new Dictionary<LampColour, string> { [LampColour.Green] = lamp.Green!, [LampColour.Yellow] = lamp.Yellow!, [LampColour.Red] = lamp.Red!, [LampColour.Off] = lamp.Off! },
            new SerialPortControl()),
        _ => null,
    };

    private static int Line(string? number) => int.Parse(number!, NumberStyles.None, CultureInfo.InvariantCulture);
}
