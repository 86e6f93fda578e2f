using CaptureAgent.Agent.Links.Devices;

namespace CaptureAgent.Agent.Links.Serial;

/// <summary>Sets up an opened port. A seam: pseudo-terminals ignore most settings, so a test looks at what is asked for here.</summary>
internal interface ISerialPortControl
{
    /// <summary>Applies the settings, raises DTR and RTS, and throws away what had come before.</summary>
    /// <returns>The settings that the driver did not take; empty if it took all.</returns>
    /// <exception cref="LinkException">It is no serial port, or is gone.</exception>
    IReadOnlyList<string> SetUp(CharacterDevice port, SerialSettings settings);

    /// <summary>Throws away what waits to go out and what came in, so that closing does not wait for a device that takes nothing.</summary>
    void Discard(CharacterDevice port);
}
