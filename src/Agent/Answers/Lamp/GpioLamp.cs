using System.Device.Gpio;

namespace CaptureAgent.Agent.Answers.Lamp;

/// <summary>Three lights on general-purpose output lines of the board.</summary>
/// <param name="lines">The line's number by colour.</param>
/// <param name="activeLow">A light is on when its line is low.</param>
internal sealed class GpioLamps(IReadOnlyDictionary<LampColour, int> lines, bool activeLow) : ILampSource
{
    public ILamp Open()
    {
        try
        {
            return new Lamp(lines, activeLow);
        }
#pragma warning disable CA1031 // Each driver has exceptions of its own.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            throw new LampException($"The board's output lines cannot be used ({failure.Message}). Is the agent's user in the group gpio, is libgpiod installed, and are the numbers under answers.lamp right?");
        }
    }

    private sealed class Lamp : ILamp
    {
        private readonly GpioController board = new();
        private readonly IReadOnlyDictionary<LampColour, int> lines;
        private readonly bool activeLow;

        public Lamp(IReadOnlyDictionary<LampColour, int> lines, bool activeLow)
        {
            (this.lines, this.activeLow) = (lines, activeLow);
            try
            {
                foreach (var line in lines.Values)
                    board.OpenPin(line, PinMode.Output, Level(isLit: false));
            }
            catch
            {
                board.Dispose();
                throw;
            }
        }

        public void Show(LampColour colour)
        {
            foreach (var (each, line) in lines)
                board.Write(line, Level(each == colour));
        }

        public void Dispose()
        {
            Show(LampColour.Off);
            board.Dispose();
        }

        private PinValue Level(bool isLit) => isLit != activeLow ? PinValue.High : PinValue.Low;
    }
}
