using System.Text;
using CaptureAgent.Agent.Links;
using CaptureAgent.Agent.Links.Devices;
using CaptureAgent.Agent.Links.Serial;

namespace CaptureAgent.Agent.Answers.Lamp;

/// <summary>A lamp on a serial port (USB, mostly) that lights up at the words its maker gave it.</summary>
/// <param name="words">What is written for each colour, and for dark.</param>
internal sealed class SerialLamps(string path, SerialSettings settings, IReadOnlyDictionary<LampColour, string> words, ISerialPortControl control) : ILampSource
{
    public ILamp Open()
    {
        try
        {
            var port = CharacterDevice.Open(path);
            try
            {
                control.SetUp(port, settings);
                return new Lamp(port, words, control);
            }
            catch
            {
                port.Dispose();
                throw;
            }
        }
        catch (LinkException failure)
        {
            throw new LampException(failure.Detail);
        }
    }

    private sealed class Lamp(CharacterDevice port, IReadOnlyDictionary<LampColour, string> words, ISerialPortControl control) : ILamp
    {
        public void Show(LampColour colour)
        {
            try
            {
                port.Write(Encoding.ASCII.GetBytes(words[colour]));
            }
            catch (LinkException failure)
            {
                throw new LampException(failure.Detail);
            }
        }

        public void Dispose()
        {
            try
            {
                port.Write(Encoding.ASCII.GetBytes(words[LampColour.Off]));
            }
            catch (LinkException)
            {
                // It is gone, and dark.
            }

            control.Discard(port);
            port.Dispose();
        }
    }
}
